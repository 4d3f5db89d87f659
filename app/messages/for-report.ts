import { decisionsPart } from './parts/decisions.ts'
import { everywhere } from './parts/everywhere.ts'
import { followUpPart } from './parts/follow-up.ts'
import { forecastPart } from './parts/forecast.ts'
import { planPart } from './parts/plan.ts'
import { reportPart } from './parts/report.ts'
import { speechPart } from './parts/speech.ts'
import { whatIfPart } from './parts/what-if.ts'
import { wishPart } from './parts/wish.ts'
import { together } from './together.ts'

/** What every page says, the follow-up, and the report that is made of it. */
export const useMessages = together(
  everywhere,
  forecastPart,
  planPart,
  whatIfPart,
  decisionsPart,
  followUpPart,
  speechPart,
  wishPart,
  reportPart,
)
export type Messages = ReturnType<typeof useMessages>
