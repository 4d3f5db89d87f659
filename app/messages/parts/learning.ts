import type { learning } from '../en/learning.ts'
import { part, type Shape } from '../part.ts'

export const learningPart = part<Shape<{ learning: typeof learning }>>({
  en: () => import('../en/learning.ts'),
  fr: () => import('../fr/learning.ts'),
})
