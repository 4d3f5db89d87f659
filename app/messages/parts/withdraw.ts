import type { withdraw } from '../en/withdraw.ts'
import { part, type Shape } from '../part.ts'

export const withdrawPart = part<Shape<{ withdraw: typeof withdraw }>>({
  en: () => import('../en/withdraw.ts'),
  fr: () => import('../fr/withdraw.ts'),
})
