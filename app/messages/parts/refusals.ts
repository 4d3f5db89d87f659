import type { refusals } from '../en/refusals.ts'
import { part, type Shape } from '../part.ts'

export const refusalsPart = part<Shape<{ refusals: typeof refusals }>>({
  en: () => import('../en/refusals.ts'),
  fr: () => import('../fr/refusals.ts'),
})
