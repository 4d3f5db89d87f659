import type { rewind } from '../en/rewind.ts'
import { part, type Shape } from '../part.ts'

export const rewindPart = part<Shape<{ rewind: typeof rewind }>>({
  en: () => import('../en/rewind.ts'),
  fr: () => import('../fr/rewind.ts'),
})
