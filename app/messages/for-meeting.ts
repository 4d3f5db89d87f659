import { everywhere } from './parts/everywhere.ts'
import { meetingPart } from './parts/meeting.ts'
import { screensPart } from './parts/screens.ts'
import { together } from './together.ts'

/** What every page says, and a programme while it runs. */
export const useMessages = together(everywhere, meetingPart, screensPart)
export type Messages = ReturnType<typeof useMessages>
