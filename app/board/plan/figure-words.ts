import type { Messages } from '@/app/messages/use-messages.ts'
import type { Headroom } from '@/lib/forecast/headroom.ts'
import type { Basis, Prediction, Range } from '@/lib/forecast/prediction.ts'

type Words = Messages['forecast']

/** What a reader asks "why" of. */
export interface WhySubject {
  readonly what: string
  readonly unit: string
  readonly result: string
  readonly interval?: Range
  readonly basis: Basis
}

export type KnownPrediction = Exclude<Prediction, { kind: 'absent' }>

/** The value as it is printed: a whole number, or a bound with its sign. */
export function figureText(prediction: KnownPrediction, words: Words): string {
  if (prediction.kind === 'at-least') return words.atLeast(prediction.value)
  if (prediction.kind === 'at-most') return words.atMost(prediction.value)
  return words.number(prediction.value)
}

/** The same for a voice, with its interval. */
export function spokenFigure(prediction: KnownPrediction, unit: string, words: Words): string {
  if (prediction.kind === 'at-least') return `${words.atLeastSpoken(prediction.value)} ${unit}`
  if (prediction.kind === 'at-most') return `${words.atMostSpoken(prediction.value)} ${unit}`
  const { low, high } = prediction.interval
  return `${words.number(prediction.value)} ${unit}, ${words.intervalSpoken(low, high)}`
}

export function whyOf(what: string, unit: string, prediction: KnownPrediction, words: Words): WhySubject {
  const result = `${figureText(prediction, words)} ${unit}`
  const { basis } = prediction
  return prediction.kind === 'estimate'
    ? { what, unit, result, interval: prediction.interval, basis }
    : { what, unit, result, basis }
}

export function headroomText({ low, high, atMost }: Headroom, words: Words): string {
  return atMost ? words.atMost(high) : words.range(low, high)
}
