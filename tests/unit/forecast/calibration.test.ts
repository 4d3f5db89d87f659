import { expect, it } from 'vitest'
import { calibrationOf } from '../../../lib/forecast/calibration.ts'
import { intervalsOf } from '../../../lib/forecast/distribution.ts'
import { type Scored, scoreNumber } from '../../../lib/forecast/scoring.ts'
import { normalFrom } from '../../fixtures/normal-draws.ts'

const distribution = {
  centre: 40,
  scale: 6.5,
  limits: { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY },
}

function scoresAbout(centre: number, sd: number, count: number): readonly Scored[] {
  const normal = normalFrom(11)
  const forecast = { kind: 'estimate', value: 40, ...intervalsOf(distribution), distribution } as const
  return Array.from({ length: count }, () => {
    const score = scoreNumber(forecast, centre + sd * normal())
    if (score.kind !== 'scored') throw new Error('expected a score')
    return score
  })
}

it('finds shares of 50 and 80 % and an even spread of probabilities where the forecasts are calibrated', () => {
  const calibration = calibrationOf(scoresAbout(40, 6.5, 4000))
  expect(calibration?.inside50.proportion).toBeCloseTo(0.5, 1)
  expect(calibration?.inside80.low).toBeLessThan(0.8)
  expect(calibration?.inside80.high).toBeGreaterThan(0.8)
  const tenths = Array.from({ length: 10 }, () => 0)
  for (const { low } of calibration?.transforms ?? [])
    tenths[Math.floor(low * 10)] = (tenths[Math.floor(low * 10)] ?? 0) + 1
  for (const count of tenths) expect(Math.abs(count - 400)).toBeLessThan(80)
  // expected score of N(m, s) against itself: s / sqrt(pi)
  expect(calibration?.meanRankedProbability).toBeCloseTo(6.5 / Math.sqrt(Math.PI), 1)
})

it('shows a series that is off and one that is too sure', () => {
  expect(calibrationOf(scoresAbout(46, 6.5, 400))?.meanError).toBeCloseTo(6, 0)
  expect(calibrationOf(scoresAbout(40, 13, 400))?.inside80.high).toBeLessThan(0.8)
})

it('says nothing of no results', () => {
  expect(calibrationOf([])).toBeUndefined()
})
