import type { ParticipantId, RecordId } from '@/lib/board/identity.ts'
import type { Question } from '@/lib/board/records/question.ts'

/** News of a question that somebody asked. */
export interface OwnNotice {
  /** one turn of one question: called again is news again */
  readonly key: string
  /** the question to go to: the one that stands for theirs */
  readonly id: RecordId
  readonly state: 'called' | 'answered'
  readonly text: string
}

/** Own questions with the question that stands for each, which is itself unless it was folded. */
function ownOnes(questions: readonly Question[], me: ParticipantId) {
  const byId = new Map(questions.map((question) => [question.id, question]))
  return questions
    .filter(({ author }) => author === me)
    .map((own) => ({ own, standing: byId.get(own.foldedInto ?? own.id) ?? own }))
}

/** Ids of own questions that are still open. What this page saw open before makes an answer news. */
export const openOwn = (questions: readonly Question[], me: ParticipantId): RecordId[] =>
  ownOnes(questions, me)
    .filter(({ standing }) => standing.state !== 'answered')
    .map(({ own }) => own.id)

/** Own questions that are called, or were answered while this page looked on. */
export function noticesFor(
  questions: readonly Question[],
  me: ParticipantId,
  witnessed: ReadonlySet<RecordId>,
): OwnNotice[] {
  return ownOnes(questions, me).flatMap(({ own, standing: { id, state, movedAt } }) => {
    if (state !== 'called' && !(state === 'answered' && witnessed.has(own.id))) return []
    return [{ key: `${own.id} ${state} ${movedAt}`, id, state, text: own.text }]
  })
}
