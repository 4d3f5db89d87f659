import { decisions } from '../../app/messages/en/decisions.ts'
import { delay } from '../../app/messages/en/delay.ts'
import { followUp } from '../../app/messages/en/follow-up.ts'
import { forecast } from '../../app/messages/en/forecast.ts'
import { hearingImport } from '../../app/messages/en/hearing-import.ts'
import { invitations } from '../../app/messages/en/invitations.ts'
import { join } from '../../app/messages/en/join.ts'
import { meeting } from '../../app/messages/en/meeting.ts'
import { overview } from '../../app/messages/en/overview.ts'
import { ownQuestions } from '../../app/messages/en/own-questions.ts'
import { plan } from '../../app/messages/en/plan.ts'
import { report } from '../../app/messages/en/report.ts'
import { rewind } from '../../app/messages/en/rewind.ts'
import { screens } from '../../app/messages/en/screens.ts'
import { speech } from '../../app/messages/en/speech.ts'
import { steps } from '../../app/messages/en/steps.ts'
import { votes } from '../../app/messages/en/votes.ts'
import { whatIf } from '../../app/messages/en/what-if.ts'
import { wishWords } from '../../app/messages/en/wish.ts'
import { messages as everywhere } from '../../app/messages/en.ts'

/** Every sentence of the product, for tests that look at several of its parts. */
export const messages = {
  ...everywhere,
  decisions,
  delay,
  followUp,
  forecast,
  hearingImport,
  invitations,
  join,
  meeting,
  overview,
  ownQuestions,
  plan,
  report,
  rewind,
  screens,
  speech,
  steps,
  whatIf,
  wishWords,
  votes,
}
