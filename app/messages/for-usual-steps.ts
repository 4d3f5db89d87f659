import { everywhere } from './parts/everywhere.ts'
import { stepsPart } from './parts/steps.ts'
import { usualStepsPart } from './parts/usual-steps.ts'
import { together } from './together.ts'

/** What the list of steps says, and the usual steps of each approach. */
export const useMessages = together(everywhere, stepsPart, usualStepsPart)
