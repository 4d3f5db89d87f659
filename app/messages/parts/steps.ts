import type { steps } from '../en/steps.ts'
import { part, type Shape } from '../part.ts'

export const stepsPart = part<Shape<{ steps: typeof steps }>>({
  en: () => import('../en/steps.ts'),
  fr: () => import('../fr/steps.ts'),
})
