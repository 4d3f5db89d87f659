import { decisionsPart } from './parts/decisions.ts'
import { everywhere } from './parts/everywhere.ts'
import { forecastPart } from './parts/forecast.ts'
import { screensPart } from './parts/screens.ts'
import { stepsPart } from './parts/steps.ts'
import { votesPart } from './parts/votes.ts'
import { together } from './together.ts'

/** What every page says, and the pages beside the board: main screen, theatre view, handout, check of a code. */
export const useMessages = together(everywhere, decisionsPart, forecastPart, screensPart, stepsPart, votesPart)
export type Messages = ReturnType<typeof useMessages>
