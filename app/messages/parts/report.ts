import type { report } from '../en/report.ts'
import { part, type Shape } from '../part.ts'

export const reportPart = part<Shape<{ report: typeof report }>>({
  en: () => import('../en/report.ts'),
  fr: () => import('../fr/report.ts'),
})
