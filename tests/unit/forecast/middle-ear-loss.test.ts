import { expect, it } from 'vitest'
import type { EarChange } from '../../../lib/devices/ear-changes.ts'
import { forecast } from '../../../lib/forecast/forecast.ts'
import { type MiddleEarScenario, middleEarLoss } from '../../../lib/forecast/middle-ear-loss.ts'
import { createMiddleEar } from '../../../lib/middle-ear/drive-change.ts'
import { atFrequency, forecastIn, inputs, planned } from '../../fixtures/forecast-ear.ts'
import { stiffened } from '../../fixtures/middle-ear.ts'

const middleEar = createMiddleEar()
const modelOf = (changes: readonly EarChange[], actuator: MiddleEarScenario['actuator'] = 'fixed-frame') =>
  middleEarLoss({ changes, actuator, middleEar })

it('loses nothing in an ear where nothing changed', () => {
  for (const site of ['incus-body', 'stapes-head', 'round-window'] as const)
    expect(modelOf([], 'floating-mass').lossAt(site, 1000)).toMatchObject({ lossDb: 0, sdDb: 0 })
})

it('loses less the farther the site is from a fixed malleus', () => {
  const loss = modelOf([stiffened('malleus', 100)])
  const [incus, stapes] = (['incus-long-process', 'stapes-head'] as const).map((site) => loss.lossAt(site, 1000))
  // ME-1: 11.0 and 6.0 dB; ALT-HE 23.0, ALT-L 14.3 and 8.5 dB
  expect(incus?.lossDb).toBeCloseTo(11, 1)
  expect(stapes?.lossDb).toBeCloseTo(6, 1)
  expect(incus?.acrossSetsDb?.high).toBeCloseTo(23.1, 1)
  expect(incus).toMatchObject({ confidence: 'trusted', route: 'through-chain' })
})

it('leaves a device on the skull alone, and says so', () => {
  expect(modelOf([stiffened('annular', 1000)]).lossAt('skull', 1000)).toEqual({
    lossDb: 0,
    sdDb: 0,
    route: 'past-chain',
  })
})

it('shows a resonance that moved up as no loss, not as a gain', () => {
  const loss = modelOf([stiffened('malleus', 10)]).lossAt('incus-long-process', 3000)
  expect(loss.lossDb).toBe(0)
})

it('never shows more than 60 dB', () => {
  expect(modelOf([{ kind: 'ligament-fixed', ligament: 'annular' }]).lossAt('stapes-head', 500).lossDb).toBe(60)
})

it('finds no way to the cochlea from a missing or cut-off ossicle', () => {
  const nothing = { lossDb: 60, sdDb: 0, route: 'none' }
  expect(modelOf([{ kind: 'incus-missing' }]).lossAt('incus-body', 1000)).toEqual(nothing)
  expect(modelOf([{ kind: 'incus-stapes-apart' }]).lossAt('incus-long-process', 1000)).toEqual(nothing)
  expect(modelOf([{ kind: 'stapes-superstructure-missing' }]).lossAt('stapes-head', 1000)).toEqual(nothing)
  expect(modelOf([{ kind: 'stapes-superstructure-missing' }]).lossAt('oval-window', 1000).route).toBe('through-chain')
})

it('takes a contact with its own uncertainty from the actuator', () => {
  const loss = modelOf([{ kind: 'contact-loss', lossDb: 10, sdDb: 6 }]).lossAt('round-window', 1000)
  expect(loss).toMatchObject({ lossDb: 10, sdDb: 6 })
  // only the base set has a round window: nothing to compare
  expect(loss.acrossSetsDb).toBeUndefined()
})

it('trusts 250 Hz to 4 kHz', () => {
  const loss = modelOf([stiffened('incus', 10)])
  const trust = ([125, 250, 4000, 6000, 8000] as const).map((f) => loss.lossAt('incus-body', f).confidence)
  expect(trust).toEqual(['low', 'trusted', 'trusted', 'low', 'low'])
})

it('goes into a forecast with the choice of the model as a cause of its own', () => {
  const loss = modelOf([stiffened('malleus', 100)])
  const plan = planned({ couplingSite: 'incus-long-process' })
  const at = atFrequency(forecastIn(forecast(inputs({ plan, loss }))), 1000)
  if (at.aidedThreshold.kind !== 'estimate') throw new Error('expected an estimate')
  // bone 40 dB HL, published gain 3 dB, loss 11.0 dB
  expect(at.aidedThreshold.value).toBeCloseTo(48, 1)
  const causes = at.aidedThreshold.basis.shares.map(({ cause }) => cause)
  expect(causes).toEqual(expect.arrayContaining(['model', 'scenario', 'between-patients']))
})
