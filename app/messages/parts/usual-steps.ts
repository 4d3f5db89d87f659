import type { usualSteps } from '../en/usual-steps.ts'
import { part, type Shape } from '../part.ts'

export const usualStepsPart = part<Shape<{ usualSteps: typeof usualSteps }>>({
  en: () => import('../en/usual-steps.ts'),
  fr: () => import('../fr/usual-steps.ts'),
})
