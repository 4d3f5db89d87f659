import { describe, expect, it } from 'vitest'
import { forecast } from '../../../lib/forecast/forecast.ts'
import { type Score, scoreForecast, scoreNumber } from '../../../lib/forecast/scoring.ts'
import type { FrequencyHz } from '../../../lib/units/frequencies.ts'
import { audiogram, type Point } from '../../fixtures/audiograms.ts'
import { ear, forecastIn, inputs } from '../../fixtures/forecast-ear.ts'

// round window over 40 dB HL: 50, 43, 36 and 38 dB HL expected at 0.5, 1, 2 and 4 kHz, mean 41.75
const scored = (aided: Readonly<Record<number, Point>>, tests = ear()) =>
  scoreForecast(forecastIn(forecast(inputs({ tests }))), audiogram(aided))
const at = ({ byFrequency }: ReturnType<typeof scored>, wanted: FrequencyHz): Score | undefined =>
  byFrequency.find(({ frequency }) => frequency === wanted)?.score

describe('a result against its forecast', () => {
  // 500 Hz: 80 % interval 37.8 to 62.2, 50 % interval 43.6 to 56.4 dB HL
  it.each([
    { level: 55, error: 5, inside50: true, inside80: true },
    { level: 60, error: 10, inside50: false, inside80: true },
    { level: 65, error: 15, inside50: false, inside80: false },
    { level: 40, error: -10, inside50: false, inside80: true },
  ])('of $level dB HL is $error dB off', ({ level, ...expected }) => {
    expect(at(scored({ 500: level }), 500)).toMatchObject({ kind: 'scored', measured: level, ...expected })
  })

  it('has a ranked probability score no larger than its error', () => {
    const score = at(scored({ 500: 65 }), 500)
    if (score?.kind !== 'scored') throw new Error('expected a score')
    expect(score.rankedProbability).toBeGreaterThan(0)
    expect(score.rankedProbability).toBeLessThan(15)
    expect(score.transform?.low).toBeGreaterThan(0.9)
  })

  it('scores the mean of four when all four were heard', () => {
    expect(scored({ 500: 45, 1000: 45, 2000: 40, 4000: 45 }).fourTone).toMatchObject({ measured: 43.75, error: 2 })
  })
})

describe('no number is made of what is none', () => {
  it('when there was no response', () => {
    const scores = scored({ 500: 45, 1000: { none: 90 }, 2000: 40, 4000: 45 })
    expect(at(scores, 1000)).toEqual({ kind: 'absent', reason: 'no-response' })
    expect(scores.fourTone).toEqual({ kind: 'absent', reason: 'no-response' })
  })
  it('when it was not or could not be tested', () => {
    const scores = scored({ 500: 'could-not-test', 1000: 40 })
    expect(at(scores, 500)).toEqual({ kind: 'absent', reason: 'could-not-test' })
    expect(at(scores, 2000)).toEqual({ kind: 'absent', reason: 'not-measured' })
  })
  it('when nothing or only a bound was forecast', () => {
    const bone = audiogram({ 500: { none: 60 }, 1000: 40, 2000: 40, 4000: 40 })
    const scores = scored({ 500: 60, 1000: 40, 2000: 40, 4000: 45, 8000: 60 }, ear({ bone }))
    expect(at(scores, 500)).toEqual({ kind: 'absent', reason: 'forecast-is-a-bound' })
    expect(at(scores, 8000)).toEqual({ kind: 'absent', reason: 'not-forecast' })
    expect(scores.fourTone).toEqual({ kind: 'absent', reason: 'forecast-is-a-bound' })
  })
})

it('scores a word score by its intervals alone', () => {
  const [word] = forecastIn(forecast(inputs())).wordScores
  if (word?.score.kind !== 'estimate') throw new Error('expected an estimate')
  expect(scoreNumber(word.score, word.score.value)).toEqual({
    kind: 'scored',
    measured: word.score.value,
    error: 0,
    inside50: true,
    inside80: true,
  })
  expect(() => scoreNumber(word.score, Number.NaN)).toThrow('measured is NaN')
})
