import { everywhere } from './parts/everywhere.ts'
import { rewindPart } from './parts/rewind.ts'
import { together } from './together.ts'

/** What every page says, and looking back at an earlier moment. */
export const useMessages = together(everywhere, rewindPart)
export type Messages = ReturnType<typeof useMessages>
