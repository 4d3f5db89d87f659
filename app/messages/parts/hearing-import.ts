import type { hearingImport } from '../en/hearing-import.ts'
import { part, type Shape } from '../part.ts'

export const hearingImportPart = part<Shape<{ hearingImport: typeof hearingImport }>>({
  en: () => import('../en/hearing-import.ts'),
  fr: () => import('../fr/hearing-import.ts'),
})
