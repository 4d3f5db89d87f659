import { audiogram } from './en/audiogram.ts'
import { board } from './en/board.ts'
import { floor } from './en/floor.ts'
import { hearing } from './en/hearing.ts'
import { measures } from './en/measures.ts'
import { postGuard } from './en/post-guard.ts'
import { shell } from './en/shell.ts'
import { words } from './en/words.ts'
import type { Language } from './language.ts'

/**
 * The sentences that every page needs, in one language, a file a feature. What one part of the product needs besides stands in
 * for-*.ts beside this file, so that a page loads the sentences it may show. Another language has the same shape.
 */
export const messages = {
  language: 'en' as Language,
  audiogram,
  board,
  floor,
  hearing,
  measures,
  postGuard,
  shell,
  words,
}
