import type { forecast } from '../en/forecast.ts'
import { part, type Shape } from '../part.ts'

export const forecastPart = part<Shape<{ forecast: typeof forecast }>>({
  en: () => import('../en/forecast.ts'),
  fr: () => import('../fr/forecast.ts'),
})
