import type { exchange } from '../en/exchange.ts'
import { part, type Shape } from '../part.ts'

export const exchangePart = part<Shape<{ exchange: typeof exchange }>>({
  en: () => import('../en/exchange.ts'),
  fr: () => import('../fr/exchange.ts'),
})
