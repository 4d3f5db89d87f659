import { causePart } from './parts/cause.ts'
import { everywhere } from './parts/everywhere.ts'
import { together } from './together.ts'

/** What every page says, and what made the ear lose its hearing. */
export const useMessages = together(everywhere, causePart)
export type Messages = ReturnType<typeof useMessages>
