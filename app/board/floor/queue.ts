import type { Thread } from '@/lib/board/edits/floor.ts'
import type { QuestionState } from '@/lib/board/records/question.ts'

export const pageLength = 50

/** How much of each state a person looks at: shut, or so many questions. */
export type Shown = Readonly<Record<QuestionState, number>>

export const firstShown: Shown = {
  called: pageLength,
  raised: pageLength,
  answered: 0,
  deferred: 0,
  'set-aside': 0,
}

/** The states in the order in which they stand on the floor. */
export const queueOrder: readonly QuestionState[] = ['called', 'raised', 'answered', 'deferred', 'set-aside']

export interface Group {
  readonly state: QuestionState
  /** all of this state, by rank */
  readonly count: number
  /** those that are drawn */
  readonly drawn: readonly Thread[]
}

/** The questions by state, each cut to what is looked at. Threads come by rank, so everyone sees one order. */
export function groupsOf(threads: readonly Thread[], shown: Shown): readonly Group[] {
  return queueOrder.map((state) => {
    const all = threads.filter(({ question }) => question.state === state)
    return { state, count: all.length, drawn: all.slice(0, shown[state]) }
  })
}

/** Enough of its group to see this question; unchanged when it is seen already or not here. */
export function revealing(shown: Shown, threads: readonly Thread[], id: string): Shown {
  const thread = threads.find(({ question, folded }) => question.id === id || folded.some((other) => other.id === id))
  if (thread === undefined) return shown
  const { state } = thread.question
  const place = threads.filter(({ question }) => question.state === state).indexOf(thread)
  const pages = Math.ceil((place + 1) / pageLength) * pageLength
  return pages <= shown[state] ? shown : { ...shown, [state]: pages }
}

/** Threads in whose words, answers or replies all these words occur. */
export function withWords(threads: readonly Thread[], words: string): readonly Thread[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean)
  if (wanted.length === 0) return threads
  return threads.filter(({ question, folded, replies }) => {
    const text = [question, ...folded, ...replies].map((part) => part.text).join('\n')
    const all = `${text}\n${question.answer?.text ?? ''}`.toLowerCase()
    return wanted.every((word) => all.includes(word))
  })
}
