import { causePart } from './parts/cause.ts'
import { everywhere } from './parts/everywhere.ts'
import { seriesPart } from './parts/series.ts'
import { together } from './together.ts'

/** What every page says, and outcomes over cases. */
export const useMessages = together(everywhere, causePart, seriesPart)
export type Messages = ReturnType<typeof useMessages>
