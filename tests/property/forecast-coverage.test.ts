// The intervals hold what they promise when the world is as the forecast assumes: effective gain, test errors, model
// and scenario are drawn from the stated spreads, the ear is measured, and the share of results inside is counted.
// 20,000 draws: the standard error of a share of 80 % is 0.3 %, of 50 % 0.35 %; 2 % are asked for.
import { expect, it } from 'vitest'
import { repeatability } from '../../lib/audiometry/test-retest.ts'
import type { Range } from '../../lib/forecast/distribution.ts'
import { forecast } from '../../lib/forecast/forecast.ts'
import type { DriveLoss, LossModel } from '../../lib/forecast/loss-model.ts'
import { modelSdDb } from '../../lib/forecast/model-discrepancy.ts'
import type { EstimatePrediction, Prediction } from '../../lib/forecast/prediction.ts'
import { logisticScore } from '../../lib/forecast/word-score.ts'
import { meanSpreadDb, wordSlope } from '../../lib/forecast/working-values.ts'
import { asDbGain } from '../../lib/units/levels.ts'
import { atFrequency, ear, flat, forecastIn, inputs } from '../fixtures/forecast-ear.ts'
import { normalFrom } from '../fixtures/normal-draws.ts'
import { randomFrom } from '../support/random.ts'

const draws = 20_000
const loss: DriveLoss = { lossDb: asDbGain(9), sdDb: 5, acrossSetsDb: { low: 4, high: 16 } }
const fixation: LossModel = {
  id: 'fixation',
  source: { id: 'fixation', citation: 'A loss made up for this test', status: 'assumption' },
  lossAt: () => loss,
}
const given = forecastIn(forecast(inputs({ loss: fixation, tests: ear({ bone: flat(45), air: flat(80) }) })))
// round window at 1 kHz: mean gain -3 dB, SD 8 dB between patients
const gainDb = { mean: -3, sd: 8 }

function estimateIn(prediction: Prediction | undefined): EstimatePrediction {
  if (prediction?.kind !== 'estimate') throw new Error(`expected an estimate, got ${prediction?.kind}`)
  return prediction
}

const isInside = ({ low, high }: Range, value: number) => value >= low && value <= high

function expectCoverage({ interval, interval50 }: EstimatePrediction, measure: () => number) {
  const measured = Array.from({ length: draws }, measure)
  const share = (range: Range) => measured.filter((value) => isInside(range, value)).length / draws
  expect(Math.abs(share(interval) - 0.8), `80 %: ${share(interval)}`).toBeLessThanOrEqual(0.02)
  expect(Math.abs(share(interval50) - 0.5), `50 %: ${share(interval50)}`).toBeLessThanOrEqual(0.02)
}

it('holds 80 and 50 % of aided thresholds at one frequency', () => {
  const normal = normalFrom(1)
  const boneSd = repeatability('bone', 1000).standardUncertainty
  expectCoverage(estimateIn(atFrequency(given, 1000).aidedThreshold), () => {
    const bone = 45 + boneSd * normal()
    const lost = loss.lossDb + modelSdDb(loss) * normal() + loss.sdDb * normal()
    return bone - (gainDb.mean + gainDb.sd * normal()) + lost
  })
})

it('holds 80 and 50 % of functional gains, whose unaided test errs too', () => {
  const normal = normalFrom(2)
  const boneSd = repeatability('bone', 1000).standardUncertainty
  const airSd = repeatability('air', 1000).standardUncertainty
  expectCoverage(estimateIn(atFrequency(given, 1000).functionalGain), () => {
    const lost = loss.lossDb + modelSdDb(loss) * normal() + loss.sdDb * normal()
    const aided = 45 + boneSd * normal() - (gainDb.mean + gainDb.sd * normal()) + lost
    return 80 + airSd * normal() - aided
  })
})

// mean gain of the round window over 0.5, 1, 2 and 4 kHz: (-10 - 3 + 4 + 2) / 4 = -1.75 dB
it('holds 80 and 50 % of mean aided thresholds', () => {
  const normal = normalFrom(3)
  expectCoverage(estimateIn(given.fourTone.aidedThreshold), () => {
    const lost = loss.lossDb + modelSdDb(loss) * normal() + loss.sdDb * normal()
    return 45 + 1.75 + meanSpreadDb.used * normal() + lost
  })
})

// A loss of 9 dB on 38.8 dB HL: half of the words are expected without a coupler. Lists of 50 words.
it('holds about 80 and 50 % of word scores, each a list of whole words', () => {
  const words = [{ right: 50, items: 50, levelDbSpl: 100 }]
  const tests = ear({ bone: flat(38.8), air: flat(45), unaidedWords: words })
  const { wordScores } = forecastIn(forecast(inputs({ loss: fixation, tests })))
  const normal = normalFrom(4)
  const random = randomFrom(5)
  const sd = Math.hypot(meanSpreadDb.used, modelSdDb(loss), loss.sdDb)
  expectCoverage(estimateIn(wordScores.find(({ variant }) => variant === 'without-coupler')?.score), () => {
    const slope = wordSlope.low + (wordSlope.high - wordSlope.low) * random()
    const share = logisticScore(47.8 + sd * normal(), 47.8, slope) / 100
    const right = Array.from({ length: 50 }, () => (random() < share ? 1 : 0)).reduce<number>(
      (sum, word) => sum + word,
      0,
    )
    return 2 * right
  })
})

it('names every cause of the spread with its share', () => {
  const { basis } = estimateIn(atFrequency(given, 1000).functionalGain)
  const shares = Object.fromEntries(basis.shares.map(({ cause, sd }) => [cause, sd]))
  expect(shares).toEqual({ 'between-patients': 8, model: 6, scenario: 5, 'bone-test': 3, 'unaided-test': 2.5 })
  const words = estimateIn(given.wordScores[0]?.score).basis.shares.map(({ cause }) => cause)
  expect(words.toSorted()).toEqual(['between-patients', 'list-length', 'model', 'scenario', 'slope'])
})
