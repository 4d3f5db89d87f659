import { describe, expect, it } from 'vitest'
import { Scenario } from '../../../lib/devices/scenario.ts'
import { forecast } from '../../../lib/forecast/forecast.ts'
import type { Prediction } from '../../../lib/forecast/prediction.ts'
import { earChangesOf } from '../../../lib/forecast/scenario.ts'
import { type Change, scenarioAnswer } from '../../../lib/forecast/scenario-answer.ts'
import { scenarioInputs } from '../../../lib/forecast/scenario-inputs.ts'
import { createMiddleEar } from '../../../lib/middle-ear/drive-change.ts'
import { ear, flat, forecastIn, inputs, planned } from '../../fixtures/forecast-ear.ts'

const middleEar = createMiddleEar()
const given = inputs({ plan: planned({ couplingSite: 'incus-long-process' }), tests: ear({ bone: flat(45) }) })
const base = forecastIn(forecast(given))
const patient = { ageYears: 50, sex: 'male' } as const

function changedBy(scenario: Scenario) {
  const outcome = scenarioInputs(given, { scenario, actuator: 'fixed-frame', middleEar, patient })
  if (!outcome.ok) throw new Error(`expected inputs, got ${outcome.refusal.code}`)
  return forecastIn(forecast(outcome.inputs))
}
const answerTo = (scenario: Scenario) => scenarioAnswer(base, changedBy(scenario))

function numberIn(change: Change | undefined) {
  if (change?.kind !== 'change') throw new Error('expected a change')
  return change
}
const at1k = (scenario: Scenario) =>
  numberIn(answerTo(scenario).byFrequency.find(({ frequency }) => frequency === 1000)?.aidedThreshold)

describe('a scenario', () => {
  it('is the changes of the middle ear that it speaks of', () => {
    expect(
      earChangesOf({
        fixation: { at: 'stapes', times: 10 },
        contact: { lossDb: 8 },
        malleusIncusSlack: 0.25,
        incusStapes: { kind: 'slack', factor: 0.5 },
      }),
    ).toEqual([
      { kind: 'ligament-stiffened', ligament: 'annular', times: 10 },
      { kind: 'contact-loss', lossDb: 8, sdDb: 4 },
      { kind: 'joint-slack', joint: 'malleus-incus', factor: 0.25 },
      { kind: 'joint-slack', joint: 'incus-stapes', factor: 0.5 },
    ])
    expect(earChangesOf({ incusStapes: { kind: 'apart' } })).toEqual([{ kind: 'incus-stapes-apart' }])
  })
  it('changes nothing when it says nothing', () => {
    const none: Scenario = { fixation: { at: 'malleus', times: 1 }, contact: { lossDb: 0 }, malleusIncusSlack: 1 }
    expect(earChangesOf(none)).toEqual([])
    expect(changedBy({})).toEqual(base)
    expect(numberIn(answerTo({}).meanAidedThreshold)).toMatchObject({ value: 0, sd: 0 })
  })
  it('survives being written down', () => {
    const scenario = { fixation: { at: 'incus', times: 100 }, innerEarYears: 10 } as const
    expect(Scenario.parse(JSON.parse(JSON.stringify(scenario)))).toEqual(scenario)
  })
  it.each([
    { fixation: { at: 'malleus', times: 0.5 } },
    { contact: { lossDb: 21 } },
    { malleusIncusSlack: Number.NaN },
    { innerEarYears: 31 },
  ] as const)('is refused out of its domain (%#)', (scenario) => {
    expect(Scenario.safeParse(scenario).success).toBe(false)
    expect(() => earChangesOf(scenario)).toThrow(RangeError)
  })
})

describe('the answer', () => {
  // malleus x100, incus drive at 1 kHz: 11.0 dB (target of the network); other sets say 23.0 and 14.3 dB
  it('is the loss of the network at the site, with the spread over its sets', () => {
    const { value, sd, interval, interval50 } = at1k({ fixation: { at: 'malleus', times: 100 } })
    expect(Math.abs(value - 11)).toBeLessThan(0.2)
    expect(sd).toBeGreaterThan(6)
    expect(interval.low).toBeLessThan(interval50.low)
    expect(interval50.high).toBeLessThan(interval.high)
  })
  it('grows with stiffness and falls with the index and the words', () => {
    const values = [3, 10, 100, 1000].map((times) => at1k({ fixation: { at: 'incus', times } }).value)
    expect(values).toEqual(values.toSorted((a, b) => a - b))
    const answer = answerTo({ fixation: { at: 'incus', times: 10 } })
    expect(numberIn(answer.wordScores[0]?.score).value).toBeLessThan(0)
    expect(numberIn(answer.speech[1]?.index).value).toBeLessThan(0)
    expect(numberIn(answer.speech[1]?.index).sd).toBeGreaterThan(0)
  })
  it('takes a contact as it was said', () => {
    const { value, sd } = at1k({ contact: { lossDb: 10, sdDb: 3 } })
    expect(value).toBeCloseTo(10, 6)
    expect(sd).toBeGreaterThanOrEqual(3)
  })
  it('ages bone conduction by the norm and is unsure of half of it', () => {
    const answer = answerTo({ innerEarYears: 20 })
    const at4k = numberIn(answer.byFrequency.find(({ frequency }) => frequency === 4000)?.aidedThreshold)
    expect(at4k.value).toBeGreaterThan(5)
    expect(at4k.sd).toBeCloseTo(at4k.value / 2, 9)
  })
  it('has no number where one forecast has none', () => {
    const { byFrequency } = answerTo({ contact: { lossDb: 5 } })
    expect(byFrequency.find(({ frequency }) => frequency === 8000)?.aidedThreshold).toEqual({
      kind: 'absent',
      reason: 'no-number-on-one-side',
    })
  })
  it('is not given for two different options', () => {
    const other = forecastIn(forecast({ ...given, plan: planned() }))
    expect(() => scenarioAnswer(base, other)).toThrow('round-window')
  })
})

it('names what it assumes among the reservations of its numbers', () => {
  const { basis } = numbered(changedBy({ contact: { lossDb: 5 }, innerEarYears: 5 }).fourTone.aidedThreshold)
  const { reservation } = basis.sources.find(({ id }) => id === 'middle-ear-network') ?? {}
  expect(reservation).toMatch(/partial contact.*ISO 7029/)
})

function numbered(prediction: Prediction) {
  if (prediction.kind === 'absent') throw new Error(`expected a number, got ${prediction.reason}`)
  return prediction
}

it('says why an ear cannot be aged', () => {
  const context = { scenario: { innerEarYears: 5 }, actuator: 'fixed-frame', middleEar } as const
  expect(scenarioInputs(given, context)).toEqual({ ok: false, refusal: { code: 'age-not-known' } })
})
