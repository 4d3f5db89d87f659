import { everywhere } from './parts/everywhere.ts'
import { forecastPart } from './parts/forecast.ts'
import { planPart } from './parts/plan.ts'
import { whatIfPart } from './parts/what-if.ts'
import { together } from './together.ts'

/** What every page says, and plan, forecast and "what if". */
export const useMessages = together(everywhere, forecastPart, planPart, whatIfPart)
export type Messages = ReturnType<typeof useMessages>
