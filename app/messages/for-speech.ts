import { everywhere } from './parts/everywhere.ts'
import { speechPart } from './parts/speech.ts'
import { together } from './together.ts'

/** What every page says, and speech tests. */
export const useMessages = together(everywhere, speechPart)
export type Messages = ReturnType<typeof useMessages>
