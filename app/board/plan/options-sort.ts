import type { EarOption } from '@/lib/forecast/ear-options.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import { fourFrequenciesHz } from '@/lib/forecast/mean-of-four.ts'
import type { Prediction } from '@/lib/forecast/prediction.ts'

export const optionOrders = ['profiles', 'aided', 'gap', 'noise', 'words', 'margin'] as const
export type OptionOrder = (typeof optionOrders)[number]

/** What an order goes by; smaller comes first, and what has no number comes last. */
const byOrder: { readonly [O in Exclude<OptionOrder, 'profiles'>]: (forecast: Forecast) => number | undefined } = {
  aided: ({ fourTone }) => known(fourTone.aidedThreshold),
  gap: ({ fourTone }) => known(fourTone.residualGap),
  noise: ({ speech }) => negative(known(speech.find(({ condition }) => condition === 'noise-65')?.aided)),
  words: ({ wordScores }) => negative(best(wordScores.flatMap(({ score }) => known(score) ?? []))),
  margin: (forecast) => negative(marginOver(forecast)?.high),
}

const known = (prediction: Prediction | undefined): number | undefined =>
  prediction === undefined || prediction.kind === 'absent' ? undefined : prediction.value
const negative = (value: number | undefined): number | undefined => (value === undefined ? undefined : -value)
const best = (values: readonly number[]): number | undefined => (values.length === 0 ? undefined : Math.max(...values))

/** Options in an order; those without a number keep their own order at the end. */
export function inOrder(options: readonly EarOption[], order: OptionOrder): readonly EarOption[] {
  if (order === 'profiles') return options
  const last = Number.POSITIVE_INFINITY
  const place = ({ outcome }: EarOption) => (outcome.ok ? (byOrder[order](outcome.forecast) ?? last) : last)
  return options.toSorted((a, b) => {
    const [first, second] = [place(a), place(b)]
    return first === second ? 0 : first - second
  })
}

export interface Margin {
  readonly low: number
  readonly high: number
  readonly atMost: boolean
}

/** Headroom less what is wanted, at the least favourable of 0.5 to 4 kHz, by the output of the class that leaves most. */
export function marginOver({ byFrequency }: Forecast): Margin | undefined {
  const inRange = byFrequency.filter(({ frequency }) => frequency >= fourFrequenciesHz[0] && frequency <= 4000)
  const outputs = [...new Set(inRange.flatMap(({ headroom }) => headroom.map(({ output }) => output)))]
  const margins = outputs.map((wanted) => {
    const ofOutput = inRange.flatMap(({ headroom }) => headroom.filter(({ output }) => output === wanted))
    return {
      low: Math.min(...ofOutput.map(({ margin }) => margin.low)),
      high: Math.min(...ofOutput.map(({ margin }) => margin.high)),
      atMost: ofOutput.some(({ atMost }) => atMost),
    }
  })
  return margins.toSorted((a, b) => b.high - a.high)[0]
}
