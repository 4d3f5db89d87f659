import type { plan } from '../en/plan.ts'
import { part, type Shape } from '../part.ts'

export const planPart = part<Shape<{ plan: typeof plan }>>({
  en: () => import('../en/plan.ts'),
  fr: () => import('../fr/plan.ts'),
})
