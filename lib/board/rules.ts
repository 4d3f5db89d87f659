import type { ParticipantId } from './identity.ts'
import type { Sender } from './judge.ts'
import type { Question } from './records/question.ts'
import type { KindName, RecordOf } from './records.ts'
import { type Refusal, refusal } from './refusals.ts'
import type { Sealer } from './sealer.ts'
import {
  beforeOutcome,
  forecastComputesAlike,
  forecastFollows,
  profileIsNew,
  scenarioComputesAlike,
  scenarioFollows,
} from './sealing-rules.ts'
import { exceptionOfSteps, jumpIsAnswered, needsStand, stepIsFree, stepOfEntry } from './step-rules.ts'
import {
  contingencyLinksExist,
  itemOfVisit,
  operationIsPossible,
  testFitsVisit,
  visitIsPlannedOnce,
  visitIsPossible,
} from './visit-rules.ts'

/** A record before and after an edit; absent before it was made and after it was removed. */
export interface Change<K extends KindName = KindName> {
  readonly kind: K
  readonly id: string
  readonly before?: RecordOf<K> | undefined
  readonly after?: RecordOf<K> | undefined
}

/** The document after the edit, as far as rules need it. */
export interface TableView {
  get<K extends KindName>(kind: K, id: string): RecordOf<K> | undefined
  count(kind: KindName): number
  values<K extends KindName>(kind: K): Iterable<RecordOf<K>>
  /** who stands behind an author: the same, but for a question that was asked without a name */
  personBehind(author: ParticipantId): ParticipantId
}

type Rule<K extends KindName> = (
  change: Change<K>,
  tables: TableView,
  sealer: Sealer,
  sender: Sender,
) => Refusal | undefined

/** Rules that need more than one field, or more than one record. One entry a kind; `judge.ts` applies them. */
export const rules: { readonly [K in KindName]?: readonly Rule<K>[] } = {
  tests: [verifiedTestIsClosed('tests'), oneCurrentTest, supersedingTestExists('tests'), testFitsVisit('tests')],
  speechTests: [
    verifiedTestIsClosed('speechTests'),
    supersedingTestExists('speechTests'),
    testFitsVisit('speechTests'),
  ],
  profiles: [profileIsNew],
  scenarios: [scenarioFollows, scenarioComputesAlike],
  forecasts: [forecastFollows, beforeOutcome, forecastComputesAlike],
  header: [operationIsPossible],
  steps: [needsStand, jumpIsAnswered, stepIsFree],
  stepExceptions: [exceptionOfSteps],
  notes: [stepOfEntry('notes')],
  contingencies: [contingencyLinksExist, stepOfEntry('contingencies')],
  visits: [visitIsPossible, visitIsPlannedOnce],
  visitItems: [itemOfVisit],
  votes: [voteStands, votedNoteExists],
  pictures: [stepOfEntry('pictures')],
  questions: [foldsOnce, oneCalled, withdrawnWhileRaised],
  replies: [questionExists('replies')],
  backings: [questionExists('backings'), backsOthers],
}

/** What a verified test still lets through: how it was closed, the note beside it, and with which visit it is filed. */
const openAfterVerification: readonly string[] = ['state', 'closing', 'note', 'visit']

function verifiedTestIsClosed<K extends 'tests' | 'speechTests'>(kind: K): Rule<K> {
  return ({ id, before, after }) => {
    if (before?.verification === undefined || after === undefined) return undefined
    const was: Readonly<Record<string, unknown>> = before
    const is: Readonly<Record<string, unknown>> = after
    for (const field of Object.keys({ ...was, ...is })) {
      if (openAfterVerification.includes(field)) continue
      if (JSON.stringify(was[field]) !== JSON.stringify(is[field]))
        return refusal('verified-test', `${kind}/${id}`, { field })
    }
    return undefined
  }
}

function oneCurrentTest({ id, after }: Change<'tests'>, tables: TableView): Refusal | undefined {
  if (after?.state !== 'current') return undefined
  for (const other of tables.values('tests'))
    if (other.id !== id && other.state === 'current' && other.ear === after.ear && other.condition === after.condition)
      return refusal('second-current-test', `tests/${id}`, { ear: after.ear, condition: after.condition })
  return undefined
}

function supersedingTestExists<K extends 'tests' | 'speechTests'>(kind: K): Rule<K> {
  return ({ id, after }, tables) => {
    const successor = after?.closing?.supersededBy
    if (successor === undefined || (successor !== id && tables.get(kind, successor) !== undefined)) return undefined
    return refusal('missing-reference', `${kind}/${id}`, { field: 'closing.supersededBy', id: successor })
  }
}

/** A vote never changes under those who vote, gets its result from the server alone, and stays once it is closed. */
function voteStands({ id, before, after }: Change<'votes'>): Refusal | undefined {
  const path = `votes/${id}`
  if (before?.result !== undefined) return refusal('closed-vote', path, {})
  if (before !== undefined && after !== undefined)
    return refusal('fixed-field', path, { kind: 'votes', field: 'question' })
  return after?.result === undefined ? undefined : refusal('counted-by-server', path, {})
}

function votedNoteExists({ id, after }: Change<'votes'>, tables: TableView): Refusal | undefined {
  if (after?.note === undefined || tables.get('notes', after.note) !== undefined) return undefined
  return refusal('missing-reference', `votes/${id}`, { field: 'note', id: after.note })
}

function foldsOnce({ id, after }: Change<'questions'>, tables: TableView): Refusal | undefined {
  if (after?.foldedInto === undefined) return undefined
  const path = `questions/${id}`
  const target = tables.get('questions', after.foldedInto)
  if (target === undefined) return refusal('missing-reference', path, { field: 'foldedInto', id: after.foldedInto })
  if (target.id === id || target.foldedInto !== undefined || hasFolded(id, tables))
    return refusal('folded-twice', path, {})
  return undefined
}

/** One question is called at a time, and it stands by itself: two moderators who call at once do not both get their way. */
function oneCalled({ id, after }: Change<'questions'>, tables: TableView): Refusal | undefined {
  if (after?.state !== 'called') return undefined
  const path = `questions/${id}`
  if (after.foldedInto !== undefined) return refusal('folded-and-called', path, {})
  for (const other of tables.values('questions'))
    if (other.id !== id && other.state === 'called')
      return refusal('second-called-question', path, { text: other.text.slice(0, quotedLength) })
  return undefined
}

/** Characters of a text that a refusal quotes. */
const quotedLength = 80

function hasFolded(id: string, tables: TableView): boolean {
  for (const question of tables.values('questions')) if (question.foldedInto === id) return true
  return false
}

function questionExists<K extends 'replies' | 'backings'>(kind: K): Rule<K> {
  return ({ id, after }, tables) => {
    if (after === undefined || tables.get('questions', after.question) !== undefined) return undefined
    return refusal('missing-reference', `${kind}/${id}`, { field: 'question', id: after.question })
  }
}

function backsOthers({ id, after }: Change<'backings'>, tables: TableView): Refusal | undefined {
  if (after === undefined) return undefined
  const question: Question | undefined = tables.get('questions', after.question)
  if (question === undefined || tables.personBehind(question.author) !== after.author) return undefined
  return refusal('own-question', `backings/${id}`, {})
}

/** A question is taken back by its asker while it waits by itself; what was called or joined belongs to the meeting. */
function withdrawnWhileRaised({ id, before, after }: Change<'questions'>, tables: TableView): Refusal | undefined {
  if (before === undefined || after !== undefined) return undefined
  const waits = before.state === 'raised' && before.foldedInto === undefined && !hasFolded(id, tables)
  return waits ? undefined : refusal('not-waiting', `questions/${id}`, {})
}
