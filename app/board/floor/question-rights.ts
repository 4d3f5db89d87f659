import type { ParticipantId } from '@/lib/board/identity.ts'
import { type Question, QuestionState } from '@/lib/board/records/question.ts'
import type { Rights } from '@/lib/board/rights.ts'

/** What one person may do to one question as it stands now. */
export interface QuestionRights {
  readonly reword: boolean
  readonly reply: boolean
  readonly back: boolean
  readonly call: boolean
  /** writes the answer and closes the question with it */
  readonly answer: boolean
  /** writes the answer; the moderator closes the question */
  readonly draftAnswer: boolean
  readonly defer: boolean
  readonly setAside: boolean
  /** withdraws one's own question while it waits */
  readonly takeBack: boolean
  readonly reopen: boolean
  readonly fold: boolean
  readonly unfold: boolean
  readonly order: boolean
}

export type QuestionAct = Exclude<keyof QuestionRights, 'order' | 'unfold'> | 'screen'

/** What of a thread its rights depend on. */
interface Judged {
  readonly question: Pick<Question, 'author' | 'state'>
  readonly folded: readonly Pick<Question, 'author'>[]
}

const none: ReadonlySet<ParticipantId> = new Set()

/** From the table of rights and the state of the question; folding also wants a question with none folded into it. */
export function questionRights(
  { question: asked, folded }: Judged,
  may: Rights,
  me: ParticipantId,
  own: ReadonlySet<ParticipantId> = none,
): QuestionRights {
  // What was asked without a name is its asker's all the same; the server writes it for them.
  const isMine = ({ author }: Pick<Question, 'author'>) => author === me || own.has(author)
  const question = isMine(asked) ? { ...asked, author: me } : asked
  const isOpen = question.state === 'raised' || question.state === 'called'
  const moves = (to: string) => may.mayMove('questions', question, to)
  const mayFold = may.mayChange('questions', 'foldedInto', question)
  const mayAnswer = may.mayChange('questions', 'answer', question)
  return {
    reword: isOpen && question.state === 'raised' && may.mayChange('questions', 'text', question),
    reply: may.mayCreate('replies'),
    back: may.mayCreate('backings') && !isMine(question) && !folded.some(isMine),
    call: moves('called'),
    answer: mayAnswer && moves('answered'),
    draftAnswer: mayAnswer && isOpen && !moves('answered'),
    defer: moves('deferred'),
    setAside: moves('set-aside'),
    takeBack: question.state === 'raised' && folded.length === 0 && may.mayRemove('questions', question),
    reopen: moves('raised'),
    fold: mayFold && isOpen && folded.length === 0,
    unfold: mayFold,
    order: question.state === 'raised' && may.mayChange('questions', 'rank', question),
  }
}

/** The key of each act while a question has the focus. Two acts of one key never apply to the same question. */
export const questionKeys: Readonly<Record<QuestionAct, string>> = {
  call: 'c',
  answer: 'a',
  draftAnswer: 'a',
  defer: 'd',
  setAside: 'x',
  reopen: 'o',
  fold: 'f',
  reply: 'r',
  back: 'b',
  reword: 'e',
  screen: 's',
  takeBack: 'Delete',
}

export const questionActs = Object.keys(questionKeys) as QuestionAct[]

/** What this person may do to some question, own or not, in some state: what a list of keys is worth naming. */
export function actsAtAll(may: Rights, me: ParticipantId): QuestionAct[] {
  const judged = QuestionState.options.flatMap((state) =>
    [me, `not-${me}`].map((author) => questionRights({ question: { state, author }, folded: [] }, may, me)),
  )
  return questionActs.filter((act) =>
    act === 'screen' ? may.mayCreate('mainScreen') : judged.some((rights) => rights[act]),
  )
}
