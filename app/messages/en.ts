import { audiogram } from './en/audiogram.ts'
import { board } from './en/board.ts'
import { decisions } from './en/decisions.ts'
import { floor } from './en/floor.ts'
import { forecast } from './en/forecast.ts'
import { hearing } from './en/hearing.ts'
import { invitations } from './en/invitations.ts'
import { join } from './en/join.ts'
import { measures } from './en/measures.ts'
import { overview } from './en/overview.ts'
import { plan } from './en/plan.ts'
import { postGuard } from './en/post-guard.ts'
import { screens } from './en/screens.ts'
import { shell } from './en/shell.ts'
import { speech } from './en/speech.ts'
import { steps } from './en/steps.ts'
import { words } from './en/words.ts'

/** Every sentence of the pages in one language, a file a feature. Another language has the same shape. */
export const messages = {
  language: 'en',
  audiogram,
  board,
  decisions,
  floor,
  forecast,
  hearing,
  invitations,
  join,
  measures,
  overview,
  plan,
  postGuard,
  screens,
  shell,
  speech,
  steps,
  words,
}
export type Messages = typeof messages
