import type { ParticipantId, RecordId } from './identity.ts'
import type { OperativeStep, StepState } from './records/operative-step.ts'
import type { StepException } from './records/step-exception.ts'

/** Prerequisites of steps, as guard and page read them. */

export const isBegun = (state: StepState): boolean => state === 'under-way' || state === 'done'

/** A prerequisite is open until it was done, or left out on purpose. */
export const isOpen = (state: StepState): boolean => state === 'ahead' || state === 'under-way'

type StepOf = (id: RecordId) => OperativeStep | undefined

/** How to find a step by its id. */
export function stepFinder(steps: readonly OperativeStep[]): StepOf {
  const byId = new Map(steps.map((step) => [step.id, step]))
  return (id) => byId.get(id)
}

/** The prerequisites of a step that are open, in the order in which it names them. */
export const openNeeds = ({ needs = [] }: Pick<OperativeStep, 'needs'>, stepOf: StepOf): OperativeStep[] =>
  needs.flatMap((id) => stepOf(id) ?? []).filter(({ state }) => isOpen(state))

/**
 * Whether somebody may go on with a step although this prerequisite is open. Whoever begins it answers for that
 * themselves; once it is begun, the answer that was given then counts for whoever finishes it.
 * @param step as it stands before they go on
 */
export const isAnswered = (
  { id, state }: Pick<OperativeStep, 'id' | 'state'>,
  need: RecordId,
  exceptions: Iterable<StepException>,
  person: ParticipantId,
): boolean => {
  for (const exception of exceptions)
    if (exception.step === id && exception.need === need && (isBegun(state) || exception.author === person)) return true
  return false
}

/**
 * The open prerequisites that a page asks about before a step moves on. A step that begins is asked about each time, also
 * by the same person: they may have put it back because of what was open.
 */
export function needsToAnswer(
  step: OperativeStep,
  to: StepState,
  stepOf: StepOf,
  exceptions: readonly StepException[],
  person: ParticipantId,
): OperativeStep[] {
  if (!isBegun(to)) return []
  const open = openNeeds(step, stepOf)
  return isBegun(step.state) ? open.filter(({ id }) => !isAnswered(step, id, exceptions, person)) : open
}

/** Steps that are begun, need this one, and carry no answer for it: what opening it again leaves without a word. */
export const begunWithout = (
  id: RecordId,
  steps: readonly OperativeStep[],
  exceptions: readonly StepException[],
): OperativeStep[] =>
  steps.filter(
    (step) =>
      isBegun(step.state) &&
      step.needs?.includes(id) === true &&
      !exceptions.some((exception) => exception.step === step.id && exception.need === id),
  )

/** Whether a step would come before itself if it had these prerequisites. */
export function closesCircle(id: RecordId, needs: readonly RecordId[], stepOf: StepOf): boolean {
  const seen = new Set<RecordId>()
  const waiting = [...needs]
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (next === id) return true
    if (seen.has(next)) continue
    seen.add(next)
    waiting.push(...(stepOf(next)?.needs ?? []))
  }
  return false
}
