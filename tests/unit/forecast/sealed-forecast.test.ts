import { describe, expect, it } from 'vitest'
import type { SealedForecast } from '../../../lib/devices/sealed-forecast.ts'
import { forecast } from '../../../lib/forecast/forecast.ts'
import { scoreForecast } from '../../../lib/forecast/scoring.ts'
import {
  forecastModelVersion,
  type SealInputs,
  sameForecast,
  scorableForecast,
  sealable,
  sealedText,
} from '../../../lib/forecast/sealed-forecast.ts'
import { createMiddleEar } from '../../../lib/middle-ear/drive-change.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { ear, flat, forecastIn, inputs, planned } from '../../fixtures/forecast-ear.ts'

function sealed(given: SealInputs): SealedForecast {
  const outcome = sealable(given)
  if (!outcome.ok) throw new Error(`expected a content, got ${outcome.refusal.code}`)
  return outcome.content
}

const fixation = () =>
  ({
    scenario: { fixation: { at: 'malleus', times: 100 }, innerEarYears: 10 },
    actuator: 'floating-mass',
    middleEar: createMiddleEar(),
    patient: { ageYears: 55, sex: 'female' },
  }) as const

describe('the content of a sealed forecast', () => {
  it('is the same text from the same inputs, computed twice', () => {
    const once = sealed({ inputs: inputs(), context: fixation() })
    const again = sealed({ inputs: inputs(), context: fixation() })
    expect(sealedText(again)).toBe(sealedText(once))
    expect(sameForecast(once, again)).toBe(true)
  })

  it('does not depend on the order in which thresholds or fields came', () => {
    const forth = sealed({
      inputs: inputs({ tests: ear({ bone: audiogram({ 500: 40, 1000: 40, 2000: 40, 4000: 40 }) }) }),
    })
    const bone = new Map([...audiogram({ 500: 40, 1000: 40, 2000: 40, 4000: 40 })].reverse())
    const back = sealed({ inputs: inputs({ tests: ear({ bone }) }) })
    expect(sealedText(back)).toBe(sealedText(forth))
    const shuffled = Object.fromEntries(Object.entries(forth).reverse()) as unknown as SealedForecast
    expect(sameForecast(shuffled, forth)).toBe(true)
  })

  it('survives being written down', () => {
    const content = sealed({ inputs: inputs(), context: fixation() })
    expect(sameForecast(JSON.parse(JSON.stringify(content)), content)).toBe(true)
  })

  // 500 Hz: 50 dB HL, SD 9.4868, 80 % interval 37.842 to 62.158, 50 % 43.601 to 56.399
  it('has every number to 0.01, with mean, SD and both intervals', () => {
    const { byFrequency, profile, modelVersion } = sealed({ inputs: inputs() })
    expect(byFrequency.find(({ frequency }) => frequency === 500)?.aidedThreshold).toEqual({
      kind: 'estimate',
      value: 50,
      interval50: { low: 43.6, high: 56.4 },
      interval: { low: 37.84, high: 62.16 },
      distribution: { mean: 50, sd: 9.49, low: 15 },
    })
    expect(profile).toEqual({ id: 'active-middle-ear-implant', version: 2 })
    expect(modelVersion).toBe(forecastModelVersion)
  })

  it('keeps reasons and bounds as what they are', () => {
    const bone = audiogram({ 500: { none: 60 }, 1000: 40, 2000: 40, 4000: 40 })
    const { byFrequency, fourTone } = sealed({ inputs: inputs({ tests: ear({ bone }) }) })
    expect(byFrequency.find(({ frequency }) => frequency === 8000)?.aidedThreshold).toEqual({
      kind: 'absent',
      reason: 'no-evidence-at-frequency',
    })
    expect(fourTone.aidedThreshold.kind).toBe('at-least')
  })
})

it.each([
  ['a threshold', inputs({ tests: ear({ bone: flat(45) }) })],
  ['the option', inputs({ plan: planned({ couplingSite: 'oval-window' }) })],
  ['the ear', inputs({ plan: planned({ ear: 'left' }) })],
] as const)('tells contents apart by %s', (_, given) => {
  expect(sameForecast(sealed({ inputs: given }), sealed({ inputs: inputs() }))).toBe(false)
})

it('tells a scenario from none, and a number that was changed afterwards', () => {
  const content = sealed({ inputs: inputs() })
  expect(sameForecast(sealed({ inputs: inputs(), context: { ...fixation(), scenario: {} } }), content)).toBe(false)
  const flattered = structuredClone(content)
  flattered.fourTone.aidedThreshold = { kind: 'at-least', value: 20 }
  expect(sameForecast(flattered, content)).toBe(false)
})

it('seals nothing where there is no forecast', () => {
  expect(sealable({ inputs: inputs({ plan: undefined }) })).toEqual({ ok: false, refusal: { code: 'no-plan' } })
  const context = { ...fixation(), patient: undefined }
  expect(sealable({ inputs: inputs(), context })).toEqual({ ok: false, refusal: { code: 'age-not-known' } })
})

it('is scored as the forecast itself, to the rounding', () => {
  const aided = audiogram({ 500: 55, 1000: 45, 2000: 40, 4000: { none: 90 } })
  const fresh = scoreForecast(forecastIn(forecast(inputs())), aided)
  const later = scoreForecast(scorableForecast(sealed({ inputs: inputs() })), aided)
  for (const [index, { score }] of fresh.byFrequency.entries()) {
    const other = later.byFrequency[index]?.score
    if (score.kind === 'absent') expect(other).toEqual(score)
    else expect(other).toMatchObject({ error: score.error, inside50: score.inside50, inside80: score.inside80 })
    if (score.kind === 'scored' && other?.kind === 'scored')
      expect(other.rankedProbability).toBeCloseTo(score.rankedProbability ?? Number.NaN, 1)
  }
  expect(later.fourTone).toEqual({ kind: 'absent', reason: 'no-response' })
})
