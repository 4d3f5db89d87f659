import { setImmediate as nextTurn } from 'node:timers/promises'
import type * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { showOnMainScreen } from '../../lib/board/edits/decisions.ts'
import { removeRecord } from '../../lib/board/edits/writing.ts'
import { onlyId, type RecordId } from '../../lib/board/identity.ts'
import type { Sender } from '../../lib/board/judge.ts'
import type { TouchedRecord } from '../../lib/board/layout.ts'
import { type KindName, kindOf } from '../../lib/board/records.ts'
import { showsRecord, withdrawnTogether } from '../../lib/board/withdrawal.ts'
import type { Hub } from '../room/hub.ts'
import type { Room } from '../room/room.ts'
import type { Store, StoredCase, Withdrawal } from '../store/store.ts'
import { withoutRecords } from './history.ts'

/**
 * Taking something back from everybody: it leaves all screens at once, then the log as well, so that neither a later viewer
 * nor rewind can bring it back. What it was is kept for the owner alone, with the reason.
 */
export interface Withdrawals {
  /** @returns undefined when there is no such record */
  withdraw(place: StoredCase, wanted: Wanted, by: Sender): Promise<Withdrawal | undefined>
  listOf(caseId: string): Promise<readonly Withdrawal[]>
  /** Does again what a stop of the process left half done. */
  resume(): Promise<void>
}

export interface Wanted {
  readonly kind: KindName
  readonly id: RecordId
  readonly reason: string
}

export interface WithdrawalsParts {
  readonly store: Store
  readonly hub: Hub
  readonly now: () => Date
  readonly newId: () => string
}

export function createWithdrawals({ store, hub, now, newId }: WithdrawalsParts): Withdrawals {
  const roomOf = (caseId: string, kind: KindName) => hub.visit(documentName(kindOf(kind).document, caseId))

  /** Each step may be done again: a record that is gone is not removed twice, a history without it stays as it is. */
  async function carryOut(withdrawal: Withdrawal): Promise<void> {
    const { caseId, document, records, by, role } = withdrawal
    const sender = { participant: by, role }
    const room = await hub.visit(document)
    await clearScreen(caseId, records, sender)
    const there = records.filter(({ kind, id }) => room.tables.get(kind, id) !== undefined)
    if (there.length > 0) await room.write((doc) => removeAll(doc, there), sender, now().getTime())
    // What is stored is shown in the next turn; a snapshot taken from then on is without it.
    await nextTurn()
    await store.finishWithdrawal(withdrawal.id, await rewrittenHistory(room, records))
  }

  async function clearScreen(caseId: string, records: readonly TouchedRecord[], by: Sender): Promise<void> {
    const room = await roomOf(caseId, 'mainScreen')
    const showing = room.tables.get('mainScreen', onlyId)?.showing
    if (showing === undefined || !records.some(({ id }) => showsRecord(showing, id))) return
    const pen = { participant: by.participant, now, newId }
    await room.write((doc) => showOnMainScreen(doc, pen, { kind: 'nothing' }), by, now().getTime())
  }

  async function rewrittenHistory(room: Room, records: readonly TouchedRecord[]) {
    const [updates, states] = await Promise.all([
      store.log(room.name, 0, Number.MAX_SAFE_INTEGER),
      store.keptStates(room.name),
    ])
    return { ...(await withoutRecords({ updates, states }, records)), seen: states.map(({ seq }) => seq) }
  }

  return {
    listOf: (caseId) => store.listWithdrawals(caseId),
    resume: async () => {
      for (const withdrawal of await store.openWithdrawals()) await carryOut(withdrawal)
    },
    withdraw: async (place, { kind, id, reason }, by) => {
      const room = await roomOf(place.id, kind)
      const record = room.tables.get(kind, id)
      if (record === undefined) return undefined
      const records = withdrawnTogether(room.tables, kind, id)
      const withdrawal: Withdrawal = {
        id: newId(),
        caseId: place.id,
        document: room.name,
        records,
        content: JSON.stringify(records.map((each) => ({ ...each, record: room.tables.get(each.kind, each.id) }))),
        reason,
        by: by.participant,
        role: by.role,
        at: now().toISOString(),
      }
      await store.recordWithdrawal(withdrawal)
      await carryOut(withdrawal)
      return withdrawal
    },
  }
}

function removeAll(doc: Y.Doc, records: readonly TouchedRecord[]): void {
  for (const { kind, id } of records) removeRecord(doc, kind, id)
}
