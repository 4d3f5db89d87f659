import { everywhere } from './parts/everywhere.ts'
import { exchangePart } from './parts/exchange.ts'
import { hearingImportPart } from './parts/hearing-import.ts'
import { together } from './together.ts'

/** What every page says, and a case going out, coming in and erased. */
export const useMessages = together(everywhere, exchangePart, hearingImportPart)
export type Messages = ReturnType<typeof useMessages>
