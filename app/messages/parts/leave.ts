import type { leave } from '../en/leave.ts'
import { part, type Shape } from '../part.ts'

export const leavePart = part<Shape<{ leave: typeof leave }>>({
  en: () => import('../en/leave.ts'),
  fr: () => import('../fr/leave.ts'),
})
