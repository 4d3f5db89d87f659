import { everywhere } from './parts/everywhere.ts'
import { hearingImportPart } from './parts/hearing-import.ts'
import { together } from './together.ts'

/** What every page says, and the import of hearing tests. */
export const useMessages = together(everywhere, hearingImportPart)
export type Messages = ReturnType<typeof useMessages>
