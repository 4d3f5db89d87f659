import { expect, it } from 'vitest'
import { forecast } from '../../../lib/forecast/forecast.ts'
import type { ForecastInputs } from '../../../lib/forecast/inputs.ts'
import { middleEarLoss } from '../../../lib/forecast/middle-ear-loss.ts'
import { createMiddleEar } from '../../../lib/middle-ear/drive-change.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { ear, flat, inputs, planned } from '../../fixtures/forecast-ear.ts'

const cases: readonly { title: string; given: Partial<ForecastInputs>; code: string }[] = [
  { title: 'without a plan', given: { plan: undefined }, code: 'no-plan' },
  { title: 'without a device class', given: { plan: planned({ deviceClass: undefined }) }, code: 'no-device-class' },
  { title: 'without a coupling site', given: { plan: planned({ couplingSite: undefined }) }, code: 'no-coupling-site' },
  {
    title: 'for a site of which the profiles know nothing',
    given: { plan: planned({ couplingSite: 'skull' }) },
    code: 'no-profile',
  },
  {
    title: 'on an incus that is missing',
    given: { plan: planned({ couplingSite: 'incus-body', incus: 'missing' }) },
    code: 'ossicle-missing',
  },
  {
    title: 'on a stapes head that is missing',
    given: { plan: planned({ couplingSite: 'stapes-head', stapes: 'missing' }) },
    code: 'ossicle-missing',
  },
  {
    title: 'through a chain that leaves no way to the inner ear',
    given: {
      loss: middleEarLoss({
        changes: [{ kind: 'incus-missing' }],
        actuator: 'fixed-frame',
        middleEar: createMiddleEar(),
      }),
      plan: planned({ couplingSite: 'incus-long-process' }),
    },
    code: 'drive-interrupted',
  },
  { title: 'without a current test', given: { tests: undefined }, code: 'no-current-test' },
  {
    title: 'without bone conduction where there is evidence',
    given: { tests: ear({ bone: audiogram({ 250: 20, 8000: 40 }) }) },
    code: 'no-bone-thresholds',
  },
  {
    title: 'for bone conduction at the maximum output',
    given: { tests: ear({ bone: flat(90) }) },
    code: 'beyond-working-range',
  },
]

it.each(cases)('gives no forecast $title', ({ given, code }) => {
  const outcome = forecast(inputs(given))
  expect(outcome.ok ? 'a forecast' : outcome.refusal.code).toBe(code)
})

it('still forecasts just inside the maximum output', () => {
  expect(forecast(inputs({ tests: ear({ bone: flat(89) }) })).ok).toBe(true)
})

it('names mean bone conduction and maximum output when the class is not strong enough', () => {
  const plan = planned({ deviceClass: 'passive-transcutaneous-bone-conduction', couplingSite: 'skull' })
  const outcome = forecast(inputs({ plan, tests: ear({ bone: flat(65) }) }))
  expect(outcome).toEqual({
    ok: false,
    refusal: { code: 'beyond-working-range', boneMeanDbHl: 65, maximumOutputDbHl: 60 },
  })
})
