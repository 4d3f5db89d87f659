import type { Contingency, ContingencyState } from './records/contingency.ts'
import type { Note } from './records/note.ts'
import type { OperativeStep } from './records/operative-step.ts'
import type { Picture } from './records/picture.ts'
import type { Question } from './records/question.ts'
import type { StepException } from './records/step-exception.ts'
import { plainText } from './rich-text.ts'

/** One line of the running record: what happened when, and where it stands. */
export type RecordLine = {
  /** ISO 8601 instant */
  readonly at: string
  /** one line of one record: a step has one for its begin and one for its end */
  readonly key: string
  /** since the first step began, ms; negative before; undefined while none has begun */
  readonly elapsedMs: number | undefined
} & (
  | { readonly kind: 'step'; readonly what: 'begun' | 'done' | 'left-out'; readonly title: string }
  | { readonly kind: 'jump'; readonly title: string; readonly need: string; readonly reason: string }
  | { readonly kind: 'note'; readonly what: Note['kind']; readonly text: string; readonly isStruck: boolean }
  | { readonly kind: 'answer'; readonly question: string; readonly text: string; readonly saidBy: string | undefined }
  | { readonly kind: 'contingency'; readonly what: ContingencyState; readonly text: string }
  | { readonly kind: 'picture'; readonly picture: Picture }
)

interface Told {
  readonly steps: readonly OperativeStep[]
  readonly stepExceptions: readonly StepException[]
  readonly notes: readonly Note[]
  readonly questions: readonly Question[]
  readonly contingencies: readonly Contingency[]
  readonly pictures: readonly Picture[]
}

/** Steps, why one went on before another, findings, decisions, answers, photographs and what became of contingencies, the newest first. */
export function runningRecord({
  steps,
  stepExceptions,
  notes,
  questions,
  contingencies,
  pictures,
}: Told): RecordLine[] {
  const begun = steps.flatMap(({ startedAt }) => startedAt ?? []).sort()[0]
  const titles = new Map(steps.map(({ id, title }) => [id, title]))
  const titleOf = (step: string) => titles.get(step) ?? ''
  const placed = (at: string, key: string) => ({
    at,
    key,
    elapsedMs: begun === undefined ? undefined : Date.parse(at) - Date.parse(begun),
  })
  const lines: RecordLine[] = [
    ...steps.flatMap((step) => stepLines(step, placed)),
    ...stepExceptions.map(({ id, at, step, need, reason }) => ({
      ...placed(at, id),
      kind: 'jump' as const,
      title: titleOf(step),
      need: titleOf(need),
      reason,
    })),
    ...notes.map(({ id, at, kind, body, struck }) => ({
      ...placed(at, id),
      kind: 'note' as const,
      what: kind,
      text: plainText(body),
      isStruck: struck !== undefined,
    })),
    ...questions.flatMap(({ id, text: question, answer }) =>
      answer === undefined
        ? []
        : [{ ...placed(answer.at, id), kind: 'answer' as const, question, text: answer.text, saidBy: answer.saidBy }],
    ),
    ...contingencies.flatMap(({ id, plan, state, moved }) =>
      moved === undefined ? [] : [{ ...placed(moved.at, id), kind: 'contingency' as const, what: state, text: plan }],
    ),
    ...pictures.map((picture) => ({ ...placed(picture.at, picture.id), kind: 'picture' as const, picture })),
  ]
  return lines.sort((a, b) => (a.at === b.at ? (a.key < b.key ? 1 : -1) : a.at < b.at ? 1 : -1))
}

type Placed = (at: string, key: string) => Pick<RecordLine, 'at' | 'key' | 'elapsedMs'>

function stepLines({ id, title, state, startedAt, endedAt }: OperativeStep, placed: Placed): RecordLine[] {
  const begin: RecordLine[] =
    startedAt === undefined ? [] : [{ ...placed(startedAt, `${id} begun`), kind: 'step', what: 'begun', title }]
  if (endedAt === undefined || (state !== 'done' && state !== 'left-out')) return begin
  return [...begin, { ...placed(endedAt, `${id} ${state}`), kind: 'step', what: state, title }]
}

/** The step that is under way: of several the one that began last. */
export function currentStep(steps: readonly OperativeStep[]): OperativeStep | undefined {
  return steps
    .filter(({ state }) => state === 'under-way')
    .sort((a, b) => ((a.startedAt ?? '') < (b.startedAt ?? '') ? 1 : -1))[0]
}
