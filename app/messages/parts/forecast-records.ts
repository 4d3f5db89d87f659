import type { forecastRecords } from '../en/forecast-records.ts'
import { part, type Shape } from '../part.ts'

export const forecastRecordsPart = part<Shape<{ forecastRecords: typeof forecastRecords }>>({
  en: () => import('../en/forecast-records.ts'),
  fr: () => import('../fr/forecast-records.ts'),
})
