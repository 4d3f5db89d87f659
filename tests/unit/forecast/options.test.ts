import { expect, it } from 'vitest'
import { forecastBand } from '../../../lib/forecast/band.ts'
import { compareOptions } from '../../../lib/forecast/comparison.ts'
import { forecast } from '../../../lib/forecast/forecast.ts'
import { asInEvidence, type LossModel } from '../../../lib/forecast/loss-model.ts'
import { asDbGain } from '../../../lib/units/levels.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { atFrequency, ear, forecastIn, inputs, planned } from '../../fixtures/forecast-ear.ts'

it('keeps the place of an option that cannot be forecast, with its reason', () => {
  const plan = planned({ incus: 'missing' })
  const compared = compareOptions({ ...inputs(), plan })
  expect(compared.map(({ option, outcome }) => [option.couplingSite, outcome.ok])).toEqual([
    ['incus-long-process', false],
    ['incus-body', false],
    ['stapes-head', true],
    ['oval-window', true],
    ['round-window', true],
    ['skull', true],
    ['skull', true],
    ['skull', true],
  ])
})

it('draws a band of the estimates and marks what is only a bound', () => {
  const tests = ear({ bone: audiogram({ 500: 40, 1000: 40, 4000: { none: 70 } }) })
  const band = forecastBand('right', forecastIn(forecast(inputs({ tests }))))
  expect(band.points.map((point) => point.frequency)).toEqual([500, 1000])
  expect(band.bounds).toEqual([{ frequency: 4000, atLeast: 68 }])
  expect(band.weak).toBe(true)
})

it('adds what the loss model takes, and its uncertainty, to every number', () => {
  const tenDown: LossModel = { ...asInEvidence, id: 'ten-down', lossAt: () => ({ lossDb: asDbGain(10), sdDb: 4 }) }
  const before = atFrequency(forecastIn(forecast(inputs())), 1000)
  const after = atFrequency(forecastIn(forecast(inputs({ loss: tenDown }))), 1000)
  expect([before.aidedThreshold, after.aidedThreshold]).toMatchObject([{ value: 43 }, { value: 53 }])
  expect([before.headroom[0]?.low, after.headroom[0]?.low]).toEqual([35, 25])
  expect(after.aidedThreshold).toMatchObject({
    basis: { shares: [{ cause: 'between-patients' }, { cause: 'scenario', sd: 4 }, { cause: 'bone-test' }] },
  })
})

it.each([
  { site: 'incus-body' as const, ossicles: { malleus: 'fixed' as const }, concerns: ['chain-not-mobile'] },
  { site: 'round-window' as const, ossicles: { malleus: 'fixed' as const }, concerns: [] },
  { site: 'stapes-head' as const, ossicles: { stapes: 'fixed' as const }, concerns: ['stapes-not-mobile'] },
  {
    site: 'round-window' as const,
    ossicles: { stapes: 'fixed' as const },
    concerns: ['stapes-not-mobile', 'window-loss-is-a-bound'],
  },
])('says where the ear differs from the ears of the evidence: $site', ({ site, ossicles, concerns }) => {
  const plan = planned({ couplingSite: site, ...ossicles })
  expect(forecastIn(forecast(inputs({ plan }))).concerns).toEqual(concerns)
})
