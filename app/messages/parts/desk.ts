import type { desk } from '../en/desk.ts'
import { part, type Shape } from '../part.ts'

export const deskPart = part<Shape<{ desk: typeof desk }>>({
  en: () => import('../en/desk.ts'),
  fr: () => import('../fr/desk.ts'),
})
