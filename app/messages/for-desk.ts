import { delayPart } from './parts/delay.ts'
import { deskPart } from './parts/desk.ts'
import { everywhere } from './parts/everywhere.ts'
import { together } from './together.ts'

/** What every page says, and the moderator's desk. */
export const useMessages = together(everywhere, delayPart, deskPart)
export type Messages = ReturnType<typeof useMessages>
