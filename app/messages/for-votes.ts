import { everywhere } from './parts/everywhere.ts'
import { votesPart } from './parts/votes.ts'
import { together } from './together.ts'

/** What every page says, and votes. */
export const useMessages = together(everywhere, votesPart)
export type Messages = ReturnType<typeof useMessages>
