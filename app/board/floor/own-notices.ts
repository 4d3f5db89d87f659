import type { ParticipantId, RecordId } from '@/lib/board/identity.ts'
import type { Question } from '@/lib/board/records/question.ts'

/** News of a question that somebody asked. */
export interface OwnNotice {
  /** one turn of one question: called again is news again */
  readonly key: string
  /** the question to go to: the one that stands for theirs */
  readonly id: RecordId
  readonly state: 'called' | 'answered' | 'joined'
  readonly text: string
}

/** The author's ids that stand for somebody: their own, and one for each question without their name. */
export type Mine = ReadonlySet<ParticipantId>

/** Own questions with the question that stands for each, which is itself unless it was folded. */
function ownOnes(questions: readonly Question[], mine: Mine) {
  const byId = new Map(questions.map((question) => [question.id, question]))
  return questions
    .filter(({ author }) => mine.has(author))
    .map((own) => ({ own, standing: byId.get(own.foldedInto ?? own.id) ?? own }))
}

const alone = (id: RecordId): string => `${id} alone`

/** What this page saw before makes news of what follows: own questions that were open, and those that stood by themselves. */
export const openOwn = (questions: readonly Question[], mine: Mine): string[] =>
  ownOnes(questions, mine)
    .filter(({ standing }) => standing.state !== 'answered')
    .flatMap(({ own }) => (own.foldedInto === undefined ? [own.id, alone(own.id)] : [own.id]))

/** Own questions that are called, or were answered or joined to another while this page looked on. */
export function noticesFor(questions: readonly Question[], mine: Mine, witnessed: ReadonlySet<string>): OwnNotice[] {
  return ownOnes(questions, mine).flatMap(({ own, standing: { id, state, movedAt, text } }): OwnNotice[] => {
    if (state === 'called' || (state === 'answered' && witnessed.has(own.id)))
      return [{ key: `${own.id} ${state} ${movedAt}`, id, state, text: own.text }]
    if (own.foldedInto !== undefined && witnessed.has(alone(own.id)))
      return [{ key: `${own.id} joined ${id}`, id, state: 'joined', text }]
    return []
  })
}
