import { decisionsPart } from './parts/decisions.ts'
import { everywhere } from './parts/everywhere.ts'
import { together } from './together.ts'

/** What every page says, and notes, contingencies and what they cite. */
export const useMessages = together(everywhere, decisionsPart)
export type Messages = ReturnType<typeof useMessages>
