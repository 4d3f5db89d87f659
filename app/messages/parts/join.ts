import type { join } from '../en/join.ts'
import { part, type Shape } from '../part.ts'

export const joinPart = part<Shape<{ join: typeof join }>>({
  en: () => import('../en/join.ts'),
  fr: () => import('../fr/join.ts'),
})
