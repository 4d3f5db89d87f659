import type { Messages } from '@/app/messages/for-forecast.ts'
import type { Plan } from '@/lib/board/records/plan.ts'

export const ossicles = ['malleus', 'incus', 'stapes'] as const

/** The state of the three ossicles in one line. */
export const ossiclesInWords = (plan: Pick<Plan, (typeof ossicles)[number]>, labels: Messages['plan']): string =>
  ossicles.map((ossicle) => `${labels[ossicle]} ${labels.ossicleState[plan[ossicle]]}`).join(', ')
