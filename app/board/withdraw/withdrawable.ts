import { recordTitle } from '@/app/board/rewind/record-title.ts'
import type { Messages } from '@/app/messages/for-withdraw.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import { readTable } from '@/lib/board/reading.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import { type KindName, kindOf } from '@/lib/board/records.ts'
import { showsRecord, withdrawableKinds } from '@/lib/board/withdrawal.ts'
import type { Board } from '../board-context.tsx'

/** Something that somebody wrote, as it is found in a list. */
export interface Withdrawable {
  readonly kind: KindName
  readonly id: RecordId
  readonly title: string
  readonly at: string
  readonly isOnScreen: boolean
}

export const keyOf = ({ kind, id }: Pick<Withdrawable, 'kind' | 'id'>): string => `${kind}/${id}`

/** What can be withdrawn: what the main screen shows first, then the newest. */
export function withdrawableIn(
  documents: Pick<Board, 'record' | 'floor'>,
  showing: Showing | undefined,
  messages: Messages,
): readonly Withdrawable[] {
  const found = withdrawableKinds.flatMap((kind) =>
    readTable(documents[kindOf(kind).document], kind).map(
      (record): Withdrawable => ({
        kind,
        id: record.id,
        title: recordTitle(kind, record, messages),
        at: record.at,
        isOnScreen: showing !== undefined && showsRecord(showing, record.id),
      }),
    ),
  )
  return found.sort((a, b) => Number(b.isOnScreen) - Number(a.isOnScreen) || (a.at < b.at ? 1 : -1))
}
