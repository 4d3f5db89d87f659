import { describe, expect, it } from 'vitest'
import { forecast } from '../../../lib/forecast/forecast.ts'
import type { Prediction } from '../../../lib/forecast/prediction.ts'
import { shareWithoutGap } from '../../../lib/forecast/without-gap.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { atFrequency, ear, flat, forecastIn, inputs, planned } from '../../fixtures/forecast-ear.ts'

const at1k = (site: 'incus-long-process' | 'round-window', airDbHl: number) => {
  const plan = planned({ couplingSite: site })
  return atFrequency(forecastIn(forecast(inputs({ plan, tests: ear({ air: flat(airDbHl), bone: flat(50) }) }))), 1000)
}
function estimate(prediction: Prediction) {
  if (prediction.kind !== 'estimate') throw new Error(`expected an estimate, got ${prediction.kind}`)
  return prediction
}

describe('an ear without an air-bone gap', () => {
  // 50 over 50 dB HL: half gain 25, so the ear hears from 25 dB HL on; the round window differs by -3 - 3 = -6 dB.
  it.each([
    ['incus-long-process', 25],
    ['round-window', 31],
  ] as const)('is expected to gain what a conventional aid gives: %s', (site, aidedDbHl) => {
    const { aidedThreshold, functionalGain } = at1k(site, 50)
    expect(aidedThreshold).toMatchObject({ kind: 'estimate', value: aidedDbHl })
    expect(functionalGain).toMatchObject({ value: 50 - aidedDbHl })
    const { remarks, sources, inputs: given } = estimate(aidedThreshold).basis
    expect(remarks).toContain('without-gap')
    expect(sources.map(({ id }) => id)).toContain('sensorineural-like-aid')
    expect(given).toContainEqual({ name: 'gain-beyond-group', unit: 'dB', value: 22, frequency: 1000 })
  })

  it('is like the group from a gap of 20 dB on', () => {
    const { aidedThreshold } = at1k('incus-long-process', 70)
    expect(aidedThreshold).toMatchObject({ value: 47 })
    expect(estimate(aidedThreshold).basis.remarks).not.toContain('small-gap')
  })

  // 65 over 50: half of each; with a gap 3 dB, without 50 - 65 + 32.5 + 3.75 = 21.25 dB
  it('is weighed between the two when its gap is small, and less sure than either', () => {
    const { aidedThreshold } = at1k('incus-long-process', 65)
    expect(aidedThreshold).toMatchObject({ value: 50 - (3 + 21.25) / 2 })
    const spread = (of: Prediction) => estimate(of).basis.shares.find(({ cause }) => cause === 'between-patients')?.sd
    expect(spread(aidedThreshold)).toBeCloseTo(Math.hypot(8, 18.25 / 2), 9)
    expect(spread(at1k('incus-long-process', 70).aidedThreshold)).toBe(8)
    expect(spread(at1k('incus-long-process', 50).aidedThreshold)).toBe(8)
  })

  it('changes nothing for a device on the skull, for which nothing of the kind is published', () => {
    const plan = planned({ deviceClass: 'percutaneous-bone-anchored', couplingSite: 'skull' })
    const tests = ear({ air: flat(40), bone: flat(40) })
    expect(atFrequency(forecastIn(forecast(inputs({ plan, tests }))), 1000).effectiveGain).toMatchObject({ value: 0 })
  })

  it('is taken to be like the group where one of the four frequencies is missing', () => {
    expect(shareWithoutGap({ air: audiogram({ 500: 50, 1000: 50, 2000: 50 }), bone: flat(50) })).toBe(0)
    expect(shareWithoutGap({ air: flat(55), bone: flat(50) })).toBe(1)
  })

  it('counts another ear without a gap by what it differs from its own expectation', () => {
    const outcome = (beyondGroupDb?: ReadonlyMap<1000, number>) => ({
      patient: 'elsewhere',
      deviceClass: 'active-middle-ear-implant' as const,
      couplingSite: 'incus-long-process' as const,
      gainDb: new Map([[1000 as const, 25]]),
      beyondGroupDb,
    })
    const plan = planned({ couplingSite: 'incus-long-process' })
    const gainWith = (beyond?: ReadonlyMap<1000, number>) =>
      estimate(
        atFrequency(forecastIn(forecast(inputs({ plan, experience: { series: [outcome(beyond)] } }))), 1000)
          .effectiveGain,
      ).value
    expect(gainWith(new Map([[1000, 22]]))).toBeCloseTo(3, 9)
    expect(gainWith()).toBeGreaterThan(4)
  })
})
