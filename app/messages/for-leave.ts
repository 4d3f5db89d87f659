import { everywhere } from './parts/everywhere.ts'
import { leavePart } from './parts/leave.ts'
import { together } from './together.ts'

/** What every page says, and the page on which one leaves a computer. */
export const useMessages = together(everywhere, leavePart)
export type Messages = ReturnType<typeof useMessages>
