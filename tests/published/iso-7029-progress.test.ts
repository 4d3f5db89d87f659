// Medians of ISO 7029:2017, a (age - 18)^b, subtracted by hand for men from 50 to 70 years with the coefficients of
// lib/audiometry/iso-7029-2017.ts, which tests/published/iso-7029.test.ts holds against the standard.
import { describe, expect, it } from 'vitest'
import { iso7029Table2017 } from '../../lib/audiometry/iso-7029-2017.ts'
import { agedBy, innerEarProgress } from '../../lib/forecast/aged-bone.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const man = { ageYears: 50, sex: 'male' } as const

it.each([500, 4000, 8000] as const)('ages as the median does at %d Hz', (frequency) => {
  const { a, b } = iso7029Table2017.male[frequency].median
  const outcome = innerEarProgress(man, 20)
  if (!outcome.ok) throw new Error('expected a progress')
  checkValue({
    source: 'ISO 7029:2017, difference of two medians',
    what: `men, 50 to 70 years, ${frequency} Hz, dB`,
    expected: a * 52 ** b - a * 32 ** b,
    actual: outcome.progress.addedDb.get(frequency) ?? Number.NaN,
    tolerance: 1e-9,
    why: 'closed form',
  })
})

describe('the aged audiogram', () => {
  const outcome = innerEarProgress(man, 20)
  if (!outcome.ok) throw new Error('expected a progress')
  const { progress } = outcome
  it('is worse where the norm is, and keeps limits and what was not tested', () => {
    const before = audiogram({ 4000: 40, 5000: 40, 6000: { none: 70 }, 8000: 125 })
    const after = agedBy(progress, before)
    expect(after.get(4000)).toMatchObject({ kind: 'heard', level: 40 + (progress.addedDb.get(4000) ?? 0) })
    expect(after.get(5000)).toEqual(before.get(5000))
    expect(after.get(6000)).toEqual(before.get(6000))
    expect(after.get(8000)).toMatchObject({ level: 130 })
    expect(after.has(1000)).toBe(false)
  })
})

it('has no number beyond the ages of the norm or without an age', () => {
  expect(innerEarProgress({ ageYears: 70, sex: 'female' }, 15)).toEqual({
    ok: false,
    refusal: { code: 'age-outside-norm', youngest: 18, oldest: 80 },
  })
  expect(innerEarProgress(undefined, 5)).toEqual({ ok: false, refusal: { code: 'age-not-known' } })
  expect(() => innerEarProgress(man, 31)).toThrow('years is 31')
})
