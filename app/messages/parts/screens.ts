import type { screens } from '../en/screens.ts'
import { part, type Shape } from '../part.ts'

export const screensPart = part<Shape<{ screens: typeof screens }>>({
  en: () => import('../en/screens.ts'),
  fr: () => import('../fr/screens.ts'),
})
