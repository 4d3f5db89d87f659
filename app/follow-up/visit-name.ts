import type { Messages } from '@/app/messages/for-follow-up.ts'
import type { Visit } from '@/lib/board/records/visit.ts'

/** As people call it: "3 months", "2 years". */
export const visitName = (
  { occasion, year }: Pick<Visit, 'occasion' | 'year'>,
  { followUp, words }: Messages,
): string => followUp.visits.name(words.occasion[occasion], year)
