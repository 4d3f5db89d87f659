import type { series } from '../en/series.ts'
import { part, type Shape } from '../part.ts'

export const seriesPart = part<Shape<{ series: typeof series }>>({
  en: () => import('../en/series.ts'),
  fr: () => import('../fr/series.ts'),
})
