import { everywhere } from './parts/everywhere.ts'
import { forecastPart } from './parts/forecast.ts'
import { forecastRecordsPart } from './parts/forecast-records.ts'
import { planPart } from './parts/plan.ts'
import { whatIfPart } from './parts/what-if.ts'
import { together } from './together.ts'

/** What every page says, and the forecast with the records beside it. */
export const useMessages = together(everywhere, forecastPart, planPart, whatIfPart, forecastRecordsPart)
export type Messages = ReturnType<typeof useMessages>
