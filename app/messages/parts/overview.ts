import type { overview } from '../en/overview.ts'
import { part, type Shape } from '../part.ts'

export const overviewPart = part<Shape<{ overview: typeof overview }>>({
  en: () => import('../en/overview.ts'),
  fr: () => import('../fr/overview.ts'),
})
