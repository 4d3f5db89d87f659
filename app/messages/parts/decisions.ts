import type { decisions } from '../en/decisions.ts'
import { part, type Shape } from '../part.ts'

export const decisionsPart = part<Shape<{ decisions: typeof decisions }>>({
  en: () => import('../en/decisions.ts'),
  fr: () => import('../fr/decisions.ts'),
})
