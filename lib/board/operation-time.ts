import type { OperativeStep } from './records/operative-step.ts'

type Timed = Pick<OperativeStep, 'state' | 'startedAt' | 'endedAt'>

/** From when to when the operation went; without `to` it goes on. */
export interface OperationTime {
  readonly from: string
  readonly to?: string
}

/**
 * When the first step began, and when the last one ended once none is left to do.
 * @returns undefined before the first step began
 */
export function operationTime(steps: readonly Timed[]): OperationTime | undefined {
  const from = steps.flatMap(({ startedAt }) => startedAt ?? []).sort()[0]
  if (from === undefined) return undefined
  const goesOn = steps.some(({ state }) => state === 'ahead' || state === 'under-way')
  const to = steps
    .flatMap(({ state, endedAt }) => (state === 'done' ? (endedAt ?? []) : []))
    .sort()
    .at(-1)
  return goesOn || to === undefined ? { from } : { from, to }
}
