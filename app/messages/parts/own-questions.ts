import type { ownQuestions } from '../en/own-questions.ts'
import { part, type Shape } from '../part.ts'

export const ownQuestionsPart = part<Shape<{ ownQuestions: typeof ownQuestions }>>({
  en: () => import('../en/own-questions.ts'),
  fr: () => import('../fr/own-questions.ts'),
})
