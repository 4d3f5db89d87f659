import { everywhere } from './parts/everywhere.ts'
import { rewindPart } from './parts/rewind.ts'
import { withdrawPart } from './parts/withdraw.ts'
import { together } from './together.ts'

/** What every page says, and taking something back from all screens. */
export const useMessages = together(everywhere, rewindPart, withdrawPart)
export type Messages = ReturnType<typeof useMessages>
