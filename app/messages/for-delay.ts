import { delayPart } from './parts/delay.ts'
import { everywhere } from './parts/everywhere.ts'
import { together } from './together.ts'

/** What every page says, and the video delay. */
export const useMessages = together(everywhere, delayPart)
export type Messages = ReturnType<typeof useMessages>
