import { everywhere } from './parts/everywhere.ts'
import { picturesPart } from './parts/pictures.ts'
import { together } from './together.ts'

/** What every page says, and photographs. */
export const useMessages = together(everywhere, picturesPart)
