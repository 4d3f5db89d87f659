import * as z from 'zod/mini'
import { RecordId } from './identity.ts'
import { type Contingency, ContingencyState } from './records/contingency.ts'
import type { Note } from './records/note.ts'
import { type OperativeStep, StepState } from './records/operative-step.ts'
import { type Question, QuestionState } from './records/question.ts'
import type { StepException } from './records/step-exception.ts'
import type { Change } from './rules.ts'

/** What a note stands for on a time line: what it was begun as, or that it was struck. */
const NoteMark = z.enum(['finding', 'decision', 'reason', 'struck'])

/** What a step stands for: the state that it came into, or that somebody went on with it although a prerequisite was open. */
const StepMark = z.enum([...StepState.options, 'jumped'])

/** What a time line of a session shows: a step, a question, a note or a contingency that has come into a state, a photograph that was added. */
export const SessionMark = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('steps'), record: RecordId, state: StepMark }),
  z.strictObject({ kind: z.literal('questions'), record: RecordId, state: QuestionState }),
  z.strictObject({ kind: z.literal('notes'), record: RecordId, state: NoteMark }),
  z.strictObject({ kind: z.literal('contingencies'), record: RecordId, state: ContingencyState }),
  z.strictObject({ kind: z.literal('pictures'), record: RecordId, state: z.literal('added') }),
])
export type SessionMark = z.infer<typeof SessionMark>

/** The marks that a change leaves: none for what was merely reworded or removed. */
export function marksOf({ kind, id: record, before, after }: Change): SessionMark[] {
  if (after === undefined) return []
  if (kind === 'notes') return noteMarks(record, before as Note | undefined, after as Note)
  if (kind === 'stepExceptions')
    return before === undefined ? [{ kind: 'steps', record: (after as StepException).step, state: 'jumped' }] : []
  if (kind === 'pictures') return before === undefined ? [{ kind, record, state: 'added' }] : []
  if (stateOf(before) === stateOf(after)) return []
  if (kind === 'questions') return [{ kind, record, state: (after as Question).state }]
  // Steps and contingencies are written ahead: what becomes of them belongs to the session.
  if (kind === 'steps') return stepMarks(record, before as OperativeStep | undefined, after as OperativeStep)
  if (before === undefined) return []
  if (kind === 'contingencies') return [{ kind, record, state: (after as Contingency).state }]
  return []
}

/** A step that was added and marked without a link comes as one change. */
const stepMarks = (record: string, before: OperativeStep | undefined, { state }: OperativeStep): SessionMark[] =>
  before === undefined && state === 'ahead' ? [] : [{ kind: 'steps', record, state }]

function noteMarks(record: string, before: Note | undefined, after: Note): SessionMark[] {
  const marks: SessionMark[] = []
  if (before?.kind !== after.kind) marks.push({ kind: 'notes', record, state: after.kind })
  if (before?.struck === undefined && after.struck !== undefined) marks.push({ kind: 'notes', record, state: 'struck' })
  return marks
}

const stateOf = (record: unknown): unknown => (record as { readonly state?: unknown } | undefined)?.state
