import { expect, it } from 'vitest'
import { refusal } from '../../../lib/board/refusals.ts'
import type { Proposal } from '../../../server/guard/proposal.ts'
import { unmeasured } from '../../../server/metrics/meter.ts'
import type { JudgedEdit } from '../../../server/room/edit.ts'
import { limits } from '../../../server/room/limits.ts'
import { Storing } from '../../../server/room/storing.ts'
import { type LoggedUpdate, type Store, StoreBehind } from '../../../server/store/store.ts'

const nothing = new Uint8Array([0, 0])

/** The way into a log that others have written `ahead` updates to; `stands` says on which of them an edit may stand. */
function storingBehind(ahead: number, stands: (seq: number) => boolean) {
  const at = new Date().toISOString()
  const log = Array.from(
    { length: ahead },
    (_, n): LoggedUpdate => ({ seq: n + 1, update: nothing, author: 'other', role: 'team', at }),
  )
  let known = 0
  const store = {
    append: async (_: unknown, after: number) => {
      if (after < log.length) throw new StoreBehind('others were first')
      return [log.length + 1]
    },
    log: async (_: string, after: number, most: number) => log.slice(after, after + most),
  } as unknown as Store
  const proposal = {
    check: () =>
      stands(known)
        ? { ok: true, changes: [], newClients: [], empty: false }
        : {
            ok: false,
            spoilt: false,
            refused: refusal('not-permitted', 'questions', { role: 'panel', action: 'change', kind: 'questions' }),
          },
    renew: () => undefined,
    follow: () => true,
  } as unknown as Proposal
  return new Storing(
    {
      document: 'floor.teal',
      store,
      proposal,
      owners: new Map(),
      othersWrite: true,
      state: () => nothing,
      stored: () => undefined,
      followed: (updates) => {
        known = updates.at(-1)?.seq ?? known
      },
      tooOften: () => undefined,
      beforeFollowing: async () => undefined,
      failed: (error) => {
        throw error
      },
      refusedUnnamed: () => undefined,
      meter: unmeasured,
    },
    0,
  )
}

const outcomeOf = (storing: Storing): Promise<string> =>
  new Promise((resolve) => {
    const edit: JudgedEdit = {
      kind: 'unnamed',
      update: nothing,
      by: { participant: 'teal', role: 'panel' },
      person: 'teal',
      nowMs: 0,
      stored: () => resolve('stored'),
      refused: ({ code }) => resolve(code),
      failed: (error) => resolve(String(error)),
    }
    storing.take(edit)
  })

const ahead = limits.readAtOnce + 200

it('judges what waits on all that others stored, not on a page of it', async () => {
  // A question that others closed and opened again: in between, nobody may answer it.
  expect(await outcomeOf(storingBehind(ahead, (seq) => seq === 0 || seq === ahead))).toBe('stored')
})

it('refuses what may not stand on the last of it', async () => {
  expect(await outcomeOf(storingBehind(ahead, (seq) => seq < ahead))).toBe('not-permitted')
})
