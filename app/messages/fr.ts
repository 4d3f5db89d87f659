import type { messages as English } from './en.ts'
import { audiogram } from './fr/audiogram.ts'
import { board } from './fr/board.ts'
import { floor } from './fr/floor.ts'
import { hearing } from './fr/hearing.ts'
import { measures } from './fr/measures.ts'
import { postGuard } from './fr/post-guard.ts'
import { shell } from './fr/shell.ts'
import { words } from './fr/words.ts'
import type { Language } from './language.ts'
import type { Shape } from './part.ts'

/** The sentences that every page needs, in French. */
export const messages: Shape<Omit<typeof English, 'language'>> & { readonly language: Language } = {
  language: 'fr',
  audiogram,
  board,
  floor,
  hearing,
  measures,
  postGuard,
  shell,
  words,
}
