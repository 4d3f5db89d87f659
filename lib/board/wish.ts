import { asDbSpl } from '../units/levels.ts'
import type { Trigger } from './records/contingency.ts'
import type { MeasuredTrigger } from './watched-contingencies.ts'

/** What surgeons want to be told about, each with measurable readings of it. */
export const wishTopics = [
  'fixation',
  'coupling',
  'gap',
  'inner-ear',
  'benefit',
  'words',
  'forecast',
  'other-ear',
] as const
export type WishTopic = (typeof wishTopics)[number]

export type WishReading = MeasuredTrigger

type Measured = Extract<Trigger, { kind: 'measured' }>

const levels = (parts: Omit<Measured, 'kind'>): WishReading => ({ kind: 'measured', ...parts })

const gainFalls = (from: Measured['from'], to: Measured['to'], reference: Measured['reference']) =>
  levels({ measure: 'effective-gain', from, to, change: 'falls-by', amountDb: 10, reference })

/** Aided monosyllables at the level of a conversation, 65 dB SPL. Common practice, no source. */
const wordsFall = (reference: Extract<Trigger, { kind: 'words' }>['reference']): WishReading => ({
  kind: 'words',
  condition: 'aided',
  levelDbSpl: asDbSpl(65),
  reference,
})

/**
 * Measurable readings of each topic, the one that answers it most directly first. 10 dB is beyond what two tests of an
 * unchanged ear differ over such a band. Chosen by this board, no source: a starting point that is edited.
 */
export const readingsOf: Readonly<Record<WishTopic, readonly WishReading[]>> = {
  fixation: [
    gainFalls(500, 2000, 'first-fitting'),
    levels({
      measure: 'air-bone-gap',
      from: 500,
      to: 2000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'best-so-far',
    }),
    levels({
      measure: 'aided-threshold',
      from: 500,
      to: 2000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'best-so-far',
    }),
  ],
  coupling: [
    gainFalls(2000, 4000, 'first-fitting'),
    gainFalls(500, 4000, 'best-so-far'),
    levels({
      measure: 'aided-threshold',
      from: 500,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'best-so-far',
    }),
  ],
  gap: [
    levels({
      measure: 'air-bone-gap',
      from: 500,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'before-surgery',
    }),
    levels({ measure: 'effective-gain', from: 500, to: 4000, change: 'is-below', amountDb: -20, reference: 'none' }),
  ],
  'inner-ear': [
    levels({
      measure: 'bone-conduction',
      from: 1000,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'before-surgery',
    }),
    levels({
      measure: 'bone-conduction',
      from: 500,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'best-so-far',
    }),
  ],
  benefit: [
    levels({
      measure: 'functional-gain',
      from: 500,
      to: 4000,
      change: 'falls-by',
      amountDb: 10,
      reference: 'best-so-far',
    }),
    levels({ measure: 'functional-gain', from: 500, to: 4000, change: 'is-below', amountDb: 10, reference: 'none' }),
    levels({ measure: 'aided-threshold', from: 500, to: 4000, change: 'is-above', amountDb: 45, reference: 'none' }),
  ],
  words: [wordsFall('best-so-far'), wordsFall('first-fitting')],
  forecast: [
    levels({
      measure: 'aided-threshold',
      from: 500,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'forecast',
    }),
    levels({ measure: 'effective-gain', from: 500, to: 4000, change: 'falls-by', amountDb: 10, reference: 'forecast' }),
  ],
  'other-ear': [
    levels({
      measure: 'aided-threshold',
      from: 500,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'other-ear',
    }),
    levels({
      measure: 'bone-conduction',
      from: 500,
      to: 4000,
      change: 'rises-by',
      amountDb: 15,
      reference: 'other-ear',
    }),
  ],
}

/** The words of one language by which a wish is understood; all lower case, the beginning of a word is enough. */
export interface WishWords {
  readonly topics: Readonly<Record<WishTopic, readonly string[]>>
  /** what joins a condition to what is done then */
  readonly conjunctions: readonly string[]
}

export interface Wish {
  readonly condition: string
  /** what is done then; empty where the wish does not say it */
  readonly plan: string
  /** the topics that its condition names, the one with most words first; all the others follow */
  readonly topics: readonly WishTopic[]
  readonly named: number
}

/** Reads "revise to the stapes if fixation recurs", or "if fixation recurs, revise to the stapes". */
export function readWish(text: string, words: WishWords): Wish {
  const { condition, plan } = clausesOf(text.trim().replace(/\s+/g, ' ').replace(/[.!]$/, ''), words.conjunctions)
  const heard = condition.toLowerCase().split(/[^\p{L}]+/u)
  const count = (topic: WishTopic) =>
    words.topics[topic].filter((stem) => heard.some((word) => word.startsWith(stem))).length
  const topics = wishTopics.toSorted((a, b) => count(b) - count(a))
  return {
    condition,
    plan: plan === '' ? '' : plan[0]?.toUpperCase() + plan.slice(1),
    topics,
    named: topics.filter((topic) => count(topic) > 0).length,
  }
}

function clausesOf(text: string, conjunctions: readonly string[]): Pick<Wish, 'condition' | 'plan'> {
  for (const word of conjunctions) {
    const first = new RegExp(`^${word} (.+?), (?:then )?(.+)$`, 'i').exec(text)
    if (first !== null) return { condition: first[1] ?? '', plan: first[2] ?? '' }
    const last = new RegExp(`^(.+?),? ${word} (.+)$`, 'i').exec(text)
    if (last !== null) return { condition: last[2] ?? '', plan: last[1] ?? '' }
  }
  return { condition: text, plan: '' }
}
