import type { Thread } from './edits/floor.ts'
import type { RecordId } from './identity.ts'
import { likeness, wordsOf } from './likeness.ts'
import type { Question } from './records/question.ts'

/**
 * From which likeness on two questions are offered as one. Half of their words in common: questions of 8 to 12 words that
 * ask the same in other words share their nouns, and unrelated ones only "the", "is" and "of". Our own choice, no source.
 */
export const alikeFrom = 0.5
/** Of how many waiting questions, from the top, pairs are looked for: each is compared with each. */
const mostCompared = 200

export interface Alike {
  /** the thread that would be folded */
  readonly thread: Thread
  /** the one that would stand for both */
  readonly into: Thread
  /** 0 to 1 (likeness.ts) */
  readonly likeness: number
}

/** Pairs of open questions that seem to ask the same, the most alike first; each question is folded in one pair at most. */
export function alikeQuestions(threads: readonly Thread[], apart: ReadonlySet<string> = new Set()): Alike[] {
  const open = threads
    .filter(({ question: { state } }) => state === 'raised' || state === 'called')
    .slice(0, mostCompared)
  const pairs = open.flatMap((one, index) =>
    open.slice(index + 1).flatMap((other) => {
      const like = likeness(questionWords(one.question), questionWords(other.question))
      return like < alikeFrom || apart.has(pairKey(one.question.id, other.question.id))
        ? []
        : [pairOf(one, other, like)]
    }),
  )
  const folded = new Set<RecordId>()
  return pairs
    .sort((a, b) => b.likeness - a.likeness)
    .filter(({ thread, into }) => {
      const isFree = !folded.has(thread.question.id) && !folded.has(into.question.id)
      if (isFree) folded.add(thread.question.id)
      return isFree
    })
}

export const pairKey = (a: RecordId, b: RecordId): string => [a, b].sort().join(' ')

/** The called one stands for both, else the one with more backers, else the earlier one. */
function pairOf(one: Thread, other: Thread, like: number): Alike {
  const stands = weight(one, other) >= 0 ? one : other
  return { thread: stands === one ? other : one, into: stands, likeness: like }
}

function weight(one: Thread, other: Thread): number {
  if (one.question.state !== other.question.state) return one.question.state === 'called' ? 1 : -1
  if (one.backers.length !== other.backers.length) return one.backers.length - other.backers.length
  return one.question.at <= other.question.at ? 1 : -1
}

const known = new WeakMap<Question, ReadonlySet<string>>()

function questionWords(question: Question): ReadonlySet<string> {
  const words = known.get(question) ?? wordsOf(question.text)
  known.set(question, words)
  return words
}
