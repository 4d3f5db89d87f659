// The recipe of the first forecast, worked by hand for bone conduction flat at 40 dB HL, air conduction flat at 75 dB HL
// and an active middle-ear implant on the round window: aided = bone - gain, SD = sqrt(SD_gain^2 + SD_bone^2), limits at
// 1.2816 SD (normal quantile of 0.9: Abramowitz and Stegun 1964, table 26.5), SD_bone 3 dB (ISO 8253-1:2010, A.3.2).
import { expect, it } from 'vitest'
import { z50, z80 } from '../../lib/forecast/distribution.ts'
import { forecast } from '../../lib/forecast/forecast.ts'
import type { Prediction } from '../../lib/forecast/prediction.ts'
import { atFrequency, ear, flat, forecastIn, inputs } from '../fixtures/forecast-ear.ts'
import { checkValue } from './record-check.ts'

const source = 'Recipe of the first forecast, worked by hand'

function estimateIn(prediction: Prediction) {
  if (prediction.kind !== 'estimate') throw new Error(`expected an estimate, got ${prediction.kind}`)
  return prediction
}

const rightEar = () => forecastIn(forecast(inputs()))

it('takes the 80 % interval at 1.2816 standard deviations', () => {
  checkValue({
    source: 'Abramowitz and Stegun 1964, table 26.5: normal quantile of 0.9',
    what: 'z of a two-sided 80 % interval',
    expected: 1.28155,
    actual: z80,
    tolerance: 5e-6,
    why: 'printed with five decimals',
  })
})

it('takes the 50 % interval at 0.6745 standard deviations', () => {
  checkValue({
    source: 'Abramowitz and Stegun 1964, table 26.5: normal quantile of 0.75',
    what: 'z of a two-sided 50 % interval',
    expected: 0.67449,
    actual: z50,
    tolerance: 5e-6,
    why: 'printed with five decimals',
  })
})

// 0.67449 x 9.4868 = 6.3988
it('has an inner interval of 50 % at 500 Hz', () => {
  const { interval50 } = estimateIn(atFrequency(rightEar(), 500).aidedThreshold)
  checkValue({
    source,
    what: '50 % limits of the aided threshold at 500 Hz, dB HL',
    expected: [43.601, 56.399],
    actual: [interval50.low, interval50.high],
    tolerance: 0.001,
    why: 'worked to three decimals',
  })
})

// 500 Hz: 40 + 10 = 50, SD sqrt(81 + 9) = 9.4868, 1.28155 SD = 12.158; 2 kHz: 40 - 4 = 36, SD sqrt(64 + 9) = 8.5440,
// 10.950; 4 kHz: 40 - 2 = 38, SD sqrt(100 + 9) = 10.4403, 13.380
it.each([
  { frequency: 500 as const, limits: [37.842, 50, 62.158] },
  { frequency: 2000 as const, limits: [25.05, 36, 46.95] },
  { frequency: 4000 as const, limits: [24.62, 38, 51.38] },
])('expects an aided threshold at $frequency Hz', ({ frequency, limits }) => {
  const { value, interval } = estimateIn(atFrequency(rightEar(), frequency).aidedThreshold)
  checkValue({
    source,
    what: `aided threshold at ${frequency} Hz with its limits, dB HL`,
    expected: limits,
    actual: [interval.low, value, interval.high],
    tolerance: 0.001,
    why: 'worked to three decimals',
  })
})

it('gives effective gain, residual gap and functional gain of the same ear', () => {
  const at = atFrequency(rightEar(), 500)
  const values = [at.effectiveGain, at.residualGap, at.functionalGain].map((quantity) => estimateIn(quantity).value)
  checkValue({
    source,
    what: 'effective gain, residual gap and functional gain at 500 Hz, dB',
    expected: [-10, 10, 25],
    actual: values,
    tolerance: 1e-9,
    why: 'whole dB',
  })
})

it('leaves headroom of maximum output less bone conduction', () => {
  const [headroom] = atFrequency(rightEar(), 1000).headroom
  checkValue({
    source,
    what: 'headroom at 1 kHz: 75 to 90 less 40, dB',
    expected: [35, 50],
    actual: [headroom?.low ?? 0, headroom?.high ?? 0],
    tolerance: 0,
    why: 'whole dB',
  })
  expect(headroom?.verdict).toBe('inside')
})

// (50 + 43 + 36 + 38) / 4 = 41.75; 1.28155 x 6.5 = 8.330
it('expects a mean of four frequencies with the spread of a mean', () => {
  const { value, interval } = estimateIn(rightEar().fourTone.aidedThreshold)
  checkValue({
    source,
    what: 'mean aided threshold with its limits, dB HL',
    expected: [33.42, 41.75, 50.08],
    actual: [interval.low, value, interval.high],
    tolerance: 0.001,
    why: 'worked to three decimals',
  })
})

// 500 Hz: 81 of 90 parts of the variance come from the spread between patients, 9 from the bone-conduction test
it('says what share of the variance each cause has', () => {
  const { basis } = estimateIn(atFrequency(rightEar(), 500).aidedThreshold)
  checkValue({
    source,
    what: 'shares of the variance at 500 Hz',
    expected: [0.9, 0.1],
    actual: basis.shares.map((share) => share.part),
    tolerance: 1e-9,
    why: 'exact tenths',
  })
  expect(basis.shares.map((share) => share.cause)).toEqual(['between-patients', 'bone-test'])
})

// Bone conduction flat at 37.8 dB HL, 10 dB better than the half-right level of 47.8: 100 / (1 + e^-1.6) = 83.20 %.
// Half-widths: ear 8.330 dB along the curve, 83.20 - 56.64 = 26.56 down and 94.94 - 83.20 = 11.74 up; 20 words
// 8.36 %; slope (88.08 - 76.85) / sqrt(12) = 3.24 %; 1.28155 x sqrt(8.36^2 + 3.24^2) = 11.49.
it('expects a word score with its limits', () => {
  const { wordScores } = forecastIn(forecast(inputs({ tests: ear({ bone: flat(37.8) }) })))
  const score = wordScores.find(({ variant }) => variant === 'without-coupler')?.score
  const { value, interval } = estimateIn(score ?? { kind: 'absent', reason: 'undetermined' })
  checkValue({
    source,
    what: 'word score with its limits, %',
    expected: [54.26, 83.2, 99.63],
    actual: [interval.low, value, interval.high],
    tolerance: 0.02,
    why: 'worked to two decimals',
  })
})
