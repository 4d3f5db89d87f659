import type { Question } from './records/question.ts'
import type { KindName, RecordOf } from './records.ts'
import { type Refusal, refusal } from './refusals.ts'

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
}

type Rule<K extends KindName> = (change: Change<K>, tables: TableView) => Refusal | undefined

/** Rules that need more than one field, or more than one record. One entry a kind; `judge.ts` applies them. */
export const rules: { readonly [K in KindName]?: readonly Rule<K>[] } = {
  tests: [verifiedTestIsClosed('tests'), oneCurrentTest, supersedingTestExists('tests')],
  speechTests: [verifiedTestIsClosed('speechTests'), supersedingTestExists('speechTests')],
  questions: [foldsOnce],
  replies: [questionExists('replies')],
  backings: [questionExists('backings'), backsOthers],
}

/** What a verified test still lets through: how it was closed, and the note beside it. */
const openAfterVerification: readonly string[] = ['state', 'closing', 'note']

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

function foldsOnce({ id, after }: Change<'questions'>, tables: TableView): Refusal | undefined {
  if (after?.foldedInto === undefined) return undefined
  const path = `questions/${id}`
  const target = tables.get('questions', after.foldedInto)
  if (target === undefined) return refusal('missing-reference', path, { field: 'foldedInto', id: after.foldedInto })
  if (target.id === id || target.foldedInto !== undefined || hasFolded(id, tables))
    return refusal('folded-twice', path, {})
  return undefined
}

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
  return question?.author === after.author ? refusal('own-question', `backings/${id}`, {}) : undefined
}
