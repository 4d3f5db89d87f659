import { everywhere } from './parts/everywhere.ts'
import { joinPart } from './parts/join.ts'
import { together } from './together.ts'

/** What every page says, and the page of an invitation. */
export const useMessages = together(everywhere, joinPart)
export type Messages = ReturnType<typeof useMessages>
