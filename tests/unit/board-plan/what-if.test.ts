import { describe, expect, it } from 'vitest'
import {
  firstPlace,
  leftDecades,
  patched,
  percentLeft,
  shareLeft,
  timesDecades,
} from '../../../app/board/plan/what-if/scenario-draft.ts'
import { conditionParts, spokenAnswer } from '../../../app/board/plan/what-if/spoken-answer.ts'
import { forecast as forecastWords } from '../../../app/messages/en/forecast.ts'
import { whatIf as words } from '../../../app/messages/en/what-if.ts'
import type { Scenario } from '../../../lib/devices/scenario.ts'
import { forecast } from '../../../lib/forecast/forecast.ts'
import { changesNothing } from '../../../lib/forecast/loss-by-frequency.ts'
import { scenarioAnswer } from '../../../lib/forecast/scenario-answer.ts'
import { scenarioInputs } from '../../../lib/forecast/scenario-inputs.ts'
import { createMiddleEar } from '../../../lib/middle-ear/drive-change.ts'
import { forecastIn, inputs, planned } from '../../fixtures/forecast-ear.ts'

describe('a slider', () => {
  it('starts at normal and ends at the largest change', () => {
    expect(timesDecades.valueAt(0)).toBe(1)
    expect(timesDecades.valueAt(timesDecades.longest)).toBe(1000)
    expect(leftDecades.valueAt(0)).toBe(100)
    expect(leftDecades.valueAt(leftDecades.longest)).toBe(1)
  })
  it('stands where the typed value is', () => {
    for (const value of [1, 2.5, 30, 100, 1000])
      expect(timesDecades.valueAt(timesDecades.positionOf(value))).toBe(value)
    for (const value of [1, 2.5, 30, 100]) expect(leftDecades.valueAt(leftDecades.positionOf(value))).toBe(value)
  })
  it('takes a joint that is normal for nothing said', () => {
    expect(shareLeft(100)).toBeUndefined()
    expect(shareLeft(50)).toBe(0.5)
    expect([percentLeft(undefined), percentLeft(0.07)]).toEqual([100, 7])
  })
})

describe('a scenario in the making', () => {
  it('takes fields in and away', () => {
    const scenario = patched({ innerEarYears: 10 }, { contact: { lossDb: 5 } })
    expect(scenario).toEqual({ innerEarYears: 10, contact: { lossDb: 5 } })
    expect(patched(scenario, { contact: undefined, innerEarYears: undefined })).toEqual({})
  })
  it('changes nothing while everything is normal', () => {
    expect(changesNothing({ fixation: { at: 'stapes', times: 1 }, innerEarYears: 0 })).toBe(true)
    expect(changesNothing({ innerEarYears: 1 })).toBe(false)
  })
  it('begins where something is there to be fixed', () => {
    expect([firstPlace('mobile'), firstPlace('missing')]).toEqual(['malleus-and-incus', 'stapes'])
  })
})

const middleEar = createMiddleEar()
const given = inputs({ plan: planned({ couplingSite: 'incus-long-process' }) })

function saidOf(scenario: Scenario): string {
  const changed = scenarioInputs(given, {
    scenario,
    actuator: 'floating-mass',
    middleEar,
    patient: { ageYears: 50, sex: 'male' },
  })
  if (!changed.ok) throw new Error(changed.refusal.code)
  const answer = scenarioAnswer(forecastIn(forecast(given)), forecastIn(forecast(changed.inputs)))
  const option = words.spoken.option('Active middle-ear implant', 'Long process of the incus')
  return spokenAnswer({ scenario, option, answer, hertz: forecastWords.hertz }, words)
}

describe('the sentence for the room', () => {
  const sentence = saidOf({ fixation: { at: 'malleus-and-incus', times: 100 } })

  it('says the condition, the option, the interval and that it is an estimate', () => {
    expect(sentence).toMatch(
      /^If the malleus and incus fixes again, 100 times as stiff as normal, our estimate for the /,
    )
    expect(sentence).toContain('for the active middle-ear implant at the long process of the incus is a')
    expect(sentence).toMatch(
      /mean aided threshold \d+ decibels worse, with an 80 percent interval from \d+ to \d+ decibels/,
    )
    expect(sentence).toMatch(/This is an estimate from group data and a model/)
  })
  it('names the frequencies of low confidence', () => {
    expect(sentence).toContain('At 6 kHz and 8 kHz the model is of low confidence')
  })
  it('has no sign that a voice cannot read', () => {
    expect(sentence).not.toMatch(/[−%+≥≤Δ]/)
  })
  it('names everything that is assumed', () => {
    const scenario: Scenario = {
      fixation: { at: 'stapes', times: 10 },
      contact: { lossDb: 4 },
      malleusIncusSlack: 0.5,
      incusStapes: { kind: 'slack', factor: 0.25 },
      innerEarYears: 1,
    }
    expect(conditionParts(scenario, words)).toHaveLength(5)
    expect(saidOf(scenario)).toContain('the inner ear ages by one year')
    expect(conditionParts({ incusStapes: { kind: 'apart' } }, words)).toEqual([words.spoken.apart])
  })
  it('gives the reason instead of a number', () => {
    const scenario: Scenario = { incusStapes: { kind: 'apart' } }
    const spoken = { scenario, option: 'X', answer: undefined, refused: 'Nothing arrives.', hertz: forecastWords.hertz }
    expect(spokenAnswer(spoken, words)).toBe('If incus and stapes come apart, there is no estimate. Nothing arrives.')
  })
})
