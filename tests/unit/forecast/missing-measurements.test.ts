import { describe, expect, it } from 'vitest'
import { forecast } from '../../../lib/forecast/forecast.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { atFrequency, ear, flat, forecastIn, inputs, planned } from '../../fixtures/forecast-ear.ts'

const withTests = (tests: Parameters<typeof ear>[0]) => forecastIn(forecast(inputs({ tests: ear(tests) })))

it.each([250, 6000, 8000] as const)('has no number at %d Hz, where nothing is published here', (frequency) => {
  const bone = audiogram({ 250: 40, 500: 40, 1000: 40, 2000: 40, 4000: 40, 6000: 40, 8000: 40 })
  const at = atFrequency(withTests({ bone }), frequency)
  expect(at.aidedThreshold).toEqual({ kind: 'absent', reason: 'no-evidence-at-frequency' })
})

describe('a bone-conduction frequency without response', () => {
  const forecastHere = withTests({ bone: audiogram({ 500: 40, 1000: 40, 2000: 40, 3000: 40, 4000: { none: 70 } }) })
  const at = atFrequency(forecastHere, 4000)

  it('makes the aided threshold a lower bound without an interval', () => {
    expect(at.aidedThreshold).toMatchObject({ kind: 'at-least', value: 68 })
    expect(at.aidedThreshold).not.toHaveProperty('interval')
  })
  it('makes the functional gain an upper bound', () => {
    expect(at.functionalGain).toMatchObject({ kind: 'at-most', value: 7 })
  })
  it('makes the headroom an upper bound that cannot be inside for certain', () => {
    expect(at.headroom).toMatchObject([{ low: 5, high: 20, atMost: true, verdict: 'outside' }])
  })
  it('makes the mean a lower bound and the word score an upper bound', () => {
    expect(forecastHere.fourTone.aidedThreshold.kind).toBe('at-least')
    expect(forecastHere.wordScores.map(({ score }) => score.kind)).toEqual(['at-most', 'at-most'])
  })
})

it('leaves the mean and the word score out when a frequency was not tested', () => {
  const { fourTone, wordScores } = withTests({ bone: audiogram({ 500: 40, 1000: 40, 4000: 40 }) })
  expect(fourTone.aidedThreshold).toEqual({ kind: 'absent', reason: 'a-frequency-is-missing' })
  expect(wordScores.map(({ score }) => score)).toContainEqual({ kind: 'absent', reason: 'a-frequency-is-missing' })
})

it('tells a frequency that could not be tested from one that was not', () => {
  const { byFrequency } = withTests({ bone: audiogram({ 500: 40, 1000: 'could-not-test' }) })
  const reasons = byFrequency.map(({ aidedThreshold: p }) => (p.kind === 'absent' ? p.reason : p.kind))
  expect(reasons.slice(1, 4)).toEqual(['estimate', 'bone-could-not-be-tested', 'bone-not-tested'])
})

it('has no number where bone conduction alone is at the maximum output, and says so', () => {
  const bone = audiogram({ 500: 20, 1000: 20, 2000: 40, 3000: 60, 4000: 95 })
  const at = atFrequency(withTests({ bone }), 4000)
  expect(at.aidedThreshold).toEqual({ kind: 'absent', reason: 'beyond-maximum-output' })
  expect(at.headroom).toMatchObject([{ verdict: 'outside' }])
})

it('never expects an aided threshold better than 15 dB HL', () => {
  const at = atFrequency(withTests({ bone: flat(5) }), 2000)
  expect(at.aidedThreshold).toMatchObject({ value: 15, interval: { low: 15 } })
  expect(at.effectiveGain).toMatchObject({ value: -10, interval: { high: -10 } })
})

describe('functional gain', () => {
  it('prefers the unaided sound field to air conduction and names which it took', () => {
    const inField = atFrequency(withTests({ soundField: flat(70) }), 1000).functionalGain
    const byAir = atFrequency(withTests({}), 1000).functionalGain
    expect([inField, byAir]).toMatchObject([
      { value: 27 },
      { value: 32, basis: { remarks: ['unmasked-bone', 'air-for-sound-field'] } },
    ])
  })
  it('is a lower bound when air conduction gave no response', () => {
    const at = atFrequency(withTests({ air: audiogram({ 1000: { none: 120 } }) }), 1000)
    expect(at.functionalGain).toMatchObject({ kind: 'at-least', value: 77 })
  })
  it('says nothing when neither route gave a response', () => {
    const none = audiogram({ 1000: { none: 70 } })
    const at = atFrequency(withTests({ air: audiogram({ 1000: { none: 120 } }), bone: none }), 1000)
    expect(at.functionalGain).toEqual({ kind: 'absent', reason: 'undetermined' })
  })
})

describe('the word score', () => {
  const scoreWith = (unaidedWords: NonNullable<Parameters<typeof ear>[0]>['unaidedWords']) =>
    withTests({ bone: flat(30), unaidedWords: unaidedWords ?? [] }).wordScores[0]?.score

  it('is capped by the best unaided score of a list that was loud enough', () => {
    expect(scoreWith([{ right: 15, items: 25, levelDbSpl: 125 }])).toMatchObject({ value: 60, interval: { high: 60 } })
  })
  it('is not capped by a list that was too soft for the ear', () => {
    const score = scoreWith([{ right: 0, items: 25, levelDbSpl: 65 }])
    expect(score).toMatchObject({
      kind: 'estimate',
      basis: { remarks: ['slope-assumed', 'not-capped', 'couplings-alike'] },
    })
  })
  it('is not carried farther than 20 dB to the better side of the half-right level', () => {
    const near = withTests({ bone: flat(27.8) }).wordScores[0]?.score
    const far = withTests({ bone: flat(0) }).wordScores[0]?.score
    if (near?.kind !== 'estimate' || far?.kind !== 'estimate') throw new Error('expected estimates')
    expect(far.value).toBeCloseTo(near.value, 9)
    expect(far.basis.remarks).toContain('far-from-half')
    expect(far.interval.low).toBeLessThan(90)
  })
  it('has none for a class with nothing published', () => {
    const plan = planned({ deviceClass: 'percutaneous-bone-anchored', couplingSite: 'skull' })
    expect(forecastIn(forecast(inputs({ plan }))).wordScores).toEqual([])
  })
})
