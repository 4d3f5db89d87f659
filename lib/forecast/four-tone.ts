import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { FrequencyForecast } from './at-frequency.ts'
import { meanGainBelief } from './gain-belief.ts'
import { fourFrequenciesHz, meanOfFour } from './mean-of-four.ts'
import { modelSdDb } from './model-discrepancy.ts'
import { type Basis, type FormulaId, type LearnedSpread, type Prediction, type Spread, sharesOf } from './prediction.ts'
import { type Fitting, optionOf } from './situation.ts'
import type { MeanLoss } from './word-score.ts'
import { aidedFloorDbHl, meanSpreadDb, workingValues } from './working-values.ts'

/** Means over 0.5, 1, 2 and 4 kHz. */
export interface FourToneForecast {
  readonly aidedThreshold: Prediction
  readonly effectiveGain: Prediction
  readonly residualGap: Prediction
  readonly functionalGain: Prediction
}

const limitsOfMean = {
  aidedThreshold: { low: aidedFloorDbHl, high: Number.POSITIVE_INFINITY },
  difference: { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY },
} as const

/** Means over four frequencies with the working spread of such a mean, which already holds its measurement errors. */
export function fourToneOf(fitting: Fitting, byFrequency: readonly FrequencyForecast[]): FourToneForecast {
  const four = byFrequency.filter(({ frequency }) => fourFrequenciesHz.some((wanted) => wanted === frequency))
  const of = spreadOfMean(fitting)
  const mean = (name: keyof FourToneForecast, limits: (typeof limitsOfMean)[keyof typeof limitsOfMean]) => {
    const parts = four.map((at) => at[name])
    return meanOfFour(parts, of, limits, basisOfMean(four, parts, of.spread, name))
  }
  return {
    aidedThreshold: mean('aidedThreshold', limitsOfMean.aidedThreshold),
    effectiveGain: mean('effectiveGain', limitsOfMean.difference),
    residualGap: mean('residualGap', limitsOfMean.difference),
    functionalGain: mean('functionalGain', limitsOfMean.difference),
  }
}

function basisOfMean(
  four: readonly FrequencyForecast[],
  parts: readonly Prediction[],
  spread: Spread,
  name: keyof FourToneForecast,
): Basis {
  const known = parts.flatMap((part) => (part.kind === 'absent' ? [] : [part]))
  const unit = name === 'aidedThreshold' ? 'dB HL' : 'dB'
  const inputs = four.flatMap(({ frequency }, index) => {
    const part = parts[index]
    return part === undefined || part.kind === 'absent'
      ? []
      : [{ name: inputNameOf[name], unit, value: part.value, frequency } as const]
  })
  const { low, high } = meanSpreadDb
  return {
    formula: 'mean-of-four' satisfies FormulaId,
    inputs: [...inputs, { name: 'spread-of-mean', unit: 'dB', value: { low, high } }],
    sources: distinct([...known.flatMap((part) => part.basis.sources), workingValues]),
    shares: sharesOf(spread),
    remarks: [...new Set(known.flatMap((part) => part.basis.remarks))],
  }
}

const inputNameOf = {
  aidedThreshold: 'aided-thresholds',
  effectiveGain: 'effective-gains',
  residualGap: 'residual-gaps',
  functionalGain: 'functional-gains',
} as const

const distinct = (sources: readonly EvidenceSource[]): readonly EvidenceSource[] => [
  ...new Map(sources.map((source) => [source.id, source])).values(),
]

/** The working spread of a mean, or what own series and other ear have made of it, with model and scenario. */
export function spreadOfMean(fitting: Fitting): LearnedSpread {
  const { sdDb, modelSdDb } = meanLossOf(fitting)
  const belief = meanGainBelief({ ...fitting, option: optionOf(fitting) })
  return {
    spread: { 'between-patients': belief?.scaleDb ?? meanSpreadDb.used, model: modelSdDb, scenario: sdDb },
    degreesOfFreedom: belief?.degreesOfFreedom,
  }
}

/** Mean of the losses and of their spreads: what moves the loss moves it at all four frequencies alike. */
export function meanLossOf({ model, site }: Fitting): MeanLoss {
  const losses = fourFrequenciesHz.map((frequency) => model.lossAt(site, frequency))
  const mean = (pick: (loss: (typeof losses)[number]) => number) =>
    losses.reduce((sum, loss) => sum + pick(loss), 0) / losses.length
  return { lossDb: mean((loss) => loss.lossDb), sdDb: mean((loss) => loss.sdDb), modelSdDb: mean(modelSdDb) }
}
