import type { Messages } from '@/app/messages/for-forecast.ts'
import type { Range } from '@/lib/forecast/distribution.ts'
import type { Headroom } from '@/lib/forecast/headroom.ts'
import type { Basis, Prediction } from '@/lib/forecast/prediction.ts'

type Words = Messages['forecast']

/** How a number is written: whole, or for an index with two decimals. */
export type Spell = (value: number) => string

/** What a reader asks "why" of. */
export interface WhySubject {
  readonly what: string
  readonly unit: string
  readonly result: string
  readonly interval?: Range
  readonly interval50?: Range
  /** writes limits and standard deviations, finer than the table does */
  readonly spell?: Spell
  readonly basis: Basis
}

export type KnownPrediction = Exclude<Prediction, { kind: 'absent' }>

/** Both limits of an interval as they are printed. */
export const rangeText = ({ low, high }: Range, words: Words, spell: Spell = words.number): string =>
  words.rangeText(spell(low), spell(high))

/** The value as it is printed: a number, or a bound with its sign. */
export function figureText(prediction: KnownPrediction, words: Words, spell: Spell = words.number): string {
  const text = spell(prediction.value)
  if (prediction.kind === 'at-least') return words.atLeastText(text)
  return prediction.kind === 'at-most' ? words.atMostText(text) : text
}

/** The same for a voice, with its interval. */
export function spokenFigure(
  prediction: KnownPrediction,
  unit: string,
  words: Words,
  spell: Spell = words.number,
): string {
  const text = spell(prediction.value)
  if (prediction.kind === 'at-least') return `${words.atLeastSpoken(text)} ${unit}`
  if (prediction.kind === 'at-most') return `${words.atMostSpoken(text)} ${unit}`
  const { low, high } = prediction.interval
  return `${text} ${unit}, ${words.intervalSpoken(spell(low), spell(high))}`
}

export function whyOf(
  what: string,
  unit: string,
  prediction: KnownPrediction,
  words: Words,
  spell?: Spell,
): WhySubject {
  const { basis } = prediction
  const subject = { what, unit, result: `${figureText(prediction, words, spell)} ${unit}`, basis }
  const spelled = spell === undefined ? subject : { ...subject, spell }
  if (prediction.kind !== 'estimate') return spelled
  const { interval, interval50 } = prediction
  return { ...spelled, interval, interval50 }
}

export function headroomText({ low, high, atMost }: Headroom, words: Words): string {
  return atMost ? words.atMost(high) : words.range(low, high)
}
