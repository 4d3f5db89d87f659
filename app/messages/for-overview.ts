import { everywhere } from './parts/everywhere.ts'
import { invitationsPart } from './parts/invitations.ts'
import { overviewPart } from './parts/overview.ts'
import { together } from './together.ts'

/** What every page says, and the lists of programmes, cases and invitations. */
export const useMessages = together(everywhere, overviewPart, invitationsPart)
export type Messages = ReturnType<typeof useMessages>
