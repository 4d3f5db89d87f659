import type { cause } from '../en/cause.ts'
import { part, type Shape } from '../part.ts'

export const causePart = part<Shape<{ cause: typeof cause }>>({
  en: () => import('../en/cause.ts'),
  fr: () => import('../fr/cause.ts'),
})
