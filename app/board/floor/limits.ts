import { textLimits } from '@/lib/board/identity.ts'
import { floorTextLimits } from '@/lib/board/records/question.ts'

/** How long the texts of the floor may be. */
export const floorLimits = {
  ...floorTextLimits,
  answer: textLimits.long,
  saidBy: textLimits.short,
  deferredTo: textLimits.short,
} as const
