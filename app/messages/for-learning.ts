import { everywhere } from './parts/everywhere.ts'
import { learningPart } from './parts/learning.ts'
import { together } from './together.ts'

/** What every page says, and what a forecast learns from the own series. */
export const useMessages = together(everywhere, learningPart)
export type Messages = ReturnType<typeof useMessages>
