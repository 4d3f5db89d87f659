import type { OperativeStep, StepState } from '@/lib/board/records/operative-step.ts'

/** What can be done next with a step, in the words of the list; the table of rights decides who may. */
export type StepAct = 'begin' | 'finish' | 'leaveOut' | 'back' | 'reopen'

interface Move {
  readonly act: StepAct
  readonly to: StepState
}

/** The main act first. */
const movesFrom: Record<StepState, readonly Move[]> = {
  ahead: [
    { act: 'begin', to: 'under-way' },
    { act: 'finish', to: 'done' },
    { act: 'leaveOut', to: 'left-out' },
  ],
  'under-way': [
    { act: 'finish', to: 'done' },
    { act: 'back', to: 'ahead' },
    { act: 'leaveOut', to: 'left-out' },
  ],
  done: [
    { act: 'reopen', to: 'under-way' },
    { act: 'back', to: 'ahead' },
  ],
  'left-out': [
    { act: 'back', to: 'ahead' },
    { act: 'begin', to: 'under-way' },
  ],
}

export const movesOf = ({ state }: Pick<OperativeStep, 'state'>): readonly Move[] => movesFrom[state]

const keyOf: Readonly<Record<string, readonly StepAct[]>> = {
  n: ['begin', 'finish'],
  x: ['leaveOut'],
  b: ['back'],
}

/** The state that a key takes a step to; undefined when the key says nothing here. */
export function stateByKey(key: string, step: Pick<OperativeStep, 'state'>): StepState | undefined {
  const acts = keyOf[key]
  return acts && movesOf(step).find(({ act }) => acts.includes(act))?.to
}

/** Whole minutes that a step has taken, up to `now` while it is under way; undefined when it never began. */
export function minutesOf(
  { startedAt, endedAt }: Pick<OperativeStep, 'startedAt' | 'endedAt'>,
  now: Date,
): number | undefined {
  if (startedAt === undefined) return undefined
  const end = endedAt === undefined ? now.getTime() : Date.parse(endedAt)
  return Math.max(0, Math.floor((end - Date.parse(startedAt)) / 60_000))
}
