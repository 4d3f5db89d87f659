import { textLimits } from '@/lib/board/identity.ts'
import { Question, Reply } from '@/lib/board/records/question.ts'

const longestOf = (schema: { readonly maxLength: number | null }, otherwise: number): number =>
  schema.maxLength ?? otherwise

/** How long the texts of the floor may be, from the records' own schemas. */
export const floorLimits = {
  question: longestOf(Question.shape.text, textLimits.long),
  reply: longestOf(Reply.shape.text, textLimits.long),
  answer: textLimits.long,
  saidBy: textLimits.short,
  deferredTo: textLimits.short,
} as const
