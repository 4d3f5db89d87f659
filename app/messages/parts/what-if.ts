import type { whatIf } from '../en/what-if.ts'
import { part, type Shape } from '../part.ts'

export const whatIfPart = part<Shape<{ whatIf: typeof whatIf }>>({
  en: () => import('../en/what-if.ts'),
  fr: () => import('../fr/what-if.ts'),
})
