import type { RecordId } from './identity.ts'
import type { TouchedRecord } from './layout.ts'
import type { Showing } from './records/main-screen.ts'
import { type KindName, kindOf, recordKinds } from './records.ts'
import type { TableView } from './rules.ts'

/**
 * Kinds that can be withdrawn: all that somebody wrote. Not what a case has once (it is corrected instead), and not a sealed
 * forecast: it holds no free text, and taking one away would improve the record of whoever sealed it.
 */
export const withdrawableKinds: readonly KindName[] = (Object.keys(recordKinds) as KindName[]).filter(
  (kind) => kindOf(kind).single !== true && !['forecasts', 'backings', 'videoDelays', 'votes', 'upNext'].includes(kind),
)

/** A record and what means nothing without it. */
export function withdrawnTogether(tables: TableView, kind: KindName, id: RecordId): readonly TouchedRecord[] {
  const own: TouchedRecord = { kind, id }
  if (kind === 'steps') return [own, ...answersAbout(tables, id)]
  if (kind !== 'questions') return [own]
  const about = (['replies', 'backings'] as const).flatMap((other) =>
    [...tables.values(other)]
      .filter(({ question }) => question === id)
      .map((record) => ({ kind: other, id: record.id })),
  )
  return [own, ...about]
}

/** Why somebody went on with this step, or without it. */
const answersAbout = (tables: TableView, id: RecordId): TouchedRecord[] =>
  [...tables.values('stepExceptions')]
    .filter(({ step, need }) => step === id || need === id)
    .map((record) => ({ kind: 'stepExceptions', id: record.id }))

/** Whether the main screen shows this record. */
export const showsRecord = (showing: Showing, id: RecordId): boolean =>
  ('id' in showing && showing.id === id) || ('test' in showing && showing.test === id)
