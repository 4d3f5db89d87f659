import { everywhere } from './parts/everywhere.ts'
import { stepsPart } from './parts/steps.ts'
import { together } from './together.ts'

/** What every page says, and the steps of the operation. */
export const useMessages = together(everywhere, stepsPart)
export type Messages = ReturnType<typeof useMessages>
