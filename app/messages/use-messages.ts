import { everywhere, type Messages } from './parts/everywhere.ts'
import { together } from './together.ts'

export type { Messages }

/** The sentences of the page's language. */
export const useMessages = together(everywhere)
