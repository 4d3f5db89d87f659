import type { followUp } from '../en/follow-up.ts'
import { part, type Shape } from '../part.ts'

export const followUpPart = part<Shape<{ followUp: typeof followUp }>>({
  en: () => import('../en/follow-up.ts'),
  fr: () => import('../fr/follow-up.ts'),
})
