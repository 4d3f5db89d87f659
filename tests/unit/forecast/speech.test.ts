import { describe, expect, it } from 'vitest'
import { compareOptions } from '../../../lib/forecast/comparison.ts'
import { forecast } from '../../../lib/forecast/forecast.ts'
import type { LossModel } from '../../../lib/forecast/loss-model.ts'
import type { Prediction } from '../../../lib/forecast/prediction.ts'
import type { SpeechConditionId } from '../../../lib/forecast/speech-conditions.ts'
import { wordScoreByIndex } from '../../../lib/forecast/word-score-by-index.ts'
import { aidedIndex, unaidedIndex, wordsAt65InQuiet } from '../../../lib/speech/ear-index.ts'
import { transferFunctions } from '../../../lib/speech/score-transfer.ts'
import { asDbGain } from '../../../lib/units/levels.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { ear, flat, forecastIn, inputs, planned } from '../../fixtures/forecast-ear.ts'

const speechOf = (tests: Parameters<typeof ear>[0], id: SpeechConditionId) => {
  const found = forecastIn(forecast(inputs({ tests: ear(tests) }))).speech.find(({ condition }) => condition === id)
  if (found === undefined) throw new Error(`no speech forecast for ${id}`)
  return found
}

function numberIn(prediction: Prediction): number {
  if (prediction.kind === 'absent') throw new Error(`expected a number, got ${prediction.reason}`)
  return prediction.value
}

describe('the index of speech', () => {
  it('is that of the audiogram without a device', () => {
    const expected = unaidedIndex({ air: flat(75), bone: flat(40) }, wordsAt65InQuiet).index
    expect(numberIn(speechOf({}, 'quiet-65').unaided)).toBeCloseTo(expected, 12)
  })

  // round window: 40 dB HL less gains of -10, -3, 4, 4 and 2 dB
  it('is that of the expected aided thresholds with the device', () => {
    const aided = audiogram({ 500: 50, 1000: 43, 2000: 36, 3000: 36, 4000: 38 })
    const expected = aidedIndex({ aided, bone: flat(40) }, wordsAt65InQuiet).index
    expect(numberIn(speechOf({}, 'quiet-65').aided)).toBeCloseTo(expected, 12)
  })

  it('falls from ordinary to soft speech and from quiet to noise', () => {
    const tests = { bone: flat(20), air: flat(60) }
    const at = (id: SpeechConditionId) => numberIn(speechOf(tests, id).aided)
    expect(at('quiet-55')).toBeLessThan(at('quiet-65'))
    expect(at('noise-65')).toBeLessThan(at('quiet-65'))
  })

  it('has its inner interval inside the outer one, and both around the value', () => {
    const { aided } = speechOf({}, 'quiet-65')
    if (aided.kind !== 'estimate') throw new Error(`expected an estimate, got ${aided.kind}`)
    const { interval, interval50, value } = aided
    const rising = [interval.low, interval50.low, value, interval50.high, interval.high]
    expect(rising).toEqual(rising.toSorted((a, b) => a - b))
    expect(aided.basis.shares.map(({ cause }) => cause)).toEqual(['between-patients'])
    expect(aided.basis.remarks).toEqual(['bands-held'])
  })

  it('is an upper bound where a threshold is only known to be at least so bad', () => {
    const bone = audiogram({ 500: 40, 1000: 40, 2000: 40, 3000: 40, 4000: { none: 70 } })
    expect(speechOf({ bone }, 'quiet-65').aided.kind).toBe('at-most')
    const air = audiogram({ 500: 60, 1000: 60, 2000: 60, 4000: { none: 110 } })
    expect(speechOf({ air }, 'quiet-65').unaided.kind).toBe('at-most')
  })

  it('has no number when one of the four frequencies is missing', () => {
    const missing = audiogram({ 500: 40, 1000: 40, 4000: 40 })
    const none = { kind: 'absent', reason: 'a-frequency-is-missing' }
    expect(speechOf({ bone: missing }, 'quiet-65').aided).toEqual(none)
    expect(speechOf({ air: missing }, 'quiet-65').unaided).toEqual(none)
  })

  it('prefers the sound field for the ear without a device', () => {
    const { unaided } = speechOf({ soundField: flat(65) }, 'quiet-65')
    expect(numberIn(unaided)).toBeCloseTo(unaidedIndex({ air: flat(65), bone: flat(40) }, wordsAt65InQuiet).index, 12)
  })
})

describe('the word score by way of the index', () => {
  const aidedAt = (level: number) => ({
    thresholds: ([500, 1000, 2000, 4000] as const).map((frequency) => ({
      frequency,
      valueDbHl: level,
      floorDbHl: 15,
      isBound: false,
    })),
    bone: flat(level),
    spread: { 'between-patients': 6.5 },
    sources: [],
  })

  it('has no number while the constants are not confirmed', () => {
    expect(forecastIn(forecast(inputs())).wordScoreByIndex).toEqual({
      material: 'nu6',
      score: { kind: 'absent', reason: 'transfer-not-confirmed' },
    })
  })

  it('follows the transfer function once they are, with the list in its interval', () => {
    const transfer = { ...transferFunctions.nu6, status: 'confirmed' as const }
    const few = wordScoreByIndex(aidedAt(40), 10, transfer).score
    const many = wordScoreByIndex(aidedAt(40), 100, transfer).score
    if (few.kind !== 'estimate' || many.kind !== 'estimate') throw new Error('expected estimates')
    const { index } = aidedIndex({ aided: flat(40), bone: flat(40) }, { ...wordsAt65InQuiet, material: 'nu6' })
    expect(many.value).toBeCloseTo(100 * (1 - 10 ** (-index / 0.404)) ** 3.334, 9)
    expect(many.interval.low).toBeGreaterThan(few.interval.low)
    expect(many.basis.shares.map(({ cause }) => cause).toSorted()).toEqual(['between-patients', 'list-length'])
  })
})

describe('the margin to the fitting range', () => {
  // round window 75 to 90 dB HL less 40 dB HL of bone conduction: 35 to 50 dB, wanted 30
  it('says by how many dB a frequency is inside', () => {
    const { byFrequency } = forecastIn(forecast(inputs()))
    expect(byFrequency.find(({ frequency }) => frequency === 1000)?.headroom[0]?.margin).toEqual({ low: 5, high: 20 })
  })
  it('is negative by as much as a loss takes it outside', () => {
    const loss: LossModel = {
      id: 'contact',
      source: { id: 'contact', citation: 'A loss made up for this test', status: 'assumption' },
      lossAt: () => ({ lossDb: asDbGain(25), sdDb: 0 }),
    }
    const { byFrequency } = forecastIn(forecast(inputs({ loss })))
    const headroom = byFrequency.find(({ frequency }) => frequency === 1000)?.headroom[0]
    expect(headroom).toMatchObject({ margin: { low: -20, high: -5 }, verdict: 'outside' })
  })
})

it('speaks of the same unaided ear for every option', () => {
  const compared = compareOptions({ ...inputs(), plan: planned() })
  const unaided = compared.flatMap(({ outcome }) => (outcome.ok ? [outcome.forecast.speech[0]?.unaided] : []))
  expect(unaided.length).toBeGreaterThan(5)
  expect(new Set(unaided).size).toBe(1)
})
