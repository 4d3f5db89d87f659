import { everywhere } from './parts/everywhere.ts'
import { ownQuestionsPart } from './parts/own-questions.ts'
import { together } from './together.ts'

/** What every page says, and what becomes of one's own questions. */
export const useMessages = together(everywhere, ownQuestionsPart)
export type Messages = ReturnType<typeof useMessages>
