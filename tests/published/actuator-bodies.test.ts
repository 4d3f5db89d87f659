// Floating-mass actuator, generic envelope: about 1.8 mm diameter x 2.3 mm long, 25 mg (from memory, unconfirmed). Flat
// transducer on the skull: bed of 3 mm (temporal bone thickness, 197 scans, abstract).
import { expect, it } from 'vitest'
import { sourceOf } from '../../lib/forecast/device-profile.ts'
import { activeMiddleEarImplant } from '../../lib/forecast/profiles/active-middle-ear-implant.ts'
import { activeTranscutaneous } from '../../lib/forecast/profiles/bone-conduction.ts'
import { checkValue } from './record-check.ts'

it('has the generic envelope of a floating-mass actuator, marked as weak', () => {
  const [body] = activeMiddleEarImplant.bodies ?? []
  checkValue({
    source: 'Floating-mass actuator, generic envelope, from memory, unconfirmed',
    what: 'diameter and length in mm, mass in mg',
    expected: [1.8, 2.3, 25],
    actual: [...(body?.envelope ?? []).map(({ mm }) => mm), body?.massMg ?? 0],
    tolerance: 0,
    why: 'as written down',
  })
  expect(body?.drive).toBe('floating-mass')
  expect(sourceOf(activeMiddleEarImplant, body?.source ?? '').status).toBe('approximate, from memory')
})

it('has the bed of a flat transducer', () => {
  const [body] = activeTranscutaneous.bodies ?? []
  checkValue({
    source: 'Temporal bone thickness, 197 scans, abstract (litmetric.com/detail/33044335)',
    what: 'depth of the bed of a flat transducer, mm',
    expected: 3,
    actual: body?.envelope[0]?.mm ?? 0,
    tolerance: 0,
    why: 'whole mm',
  })
  expect(sourceOf(activeTranscutaneous, body?.source ?? '').status).toBe('confirmed')
})
