// ISO 8253-1:2010: 8.4 vibrotactile levels 40, 60, 70 dB HL at 250, 500, 1000 Hz on the mastoid, about 10 dB lower on the
// forehead; 6.2.3.2 repeat at 1 kHz within 5 dB. Margolis et al. 2013: false gap at 4 kHz of 10.6 dB (normal hearing) and
// 14.1 dB (sensorineural) on average.
import { describe, it } from 'vitest'
import { reviewTest } from '../../lib/audiometry/review-test.ts'
import { type EarWords, ears } from '../fixtures/tested-ears.ts'
import { checkValue } from './record-check.ts'

const decision = { tolerance: 0, why: 'a decision' } as const

/** Frequencies, or true, at which the right ear alone is given this finding. */
function found(id: string, right: EarWords): number[] {
  return reviewTest({ ears: ears(right, {}) })
    .filter((finding) => finding.id === id)
    .map(({ where }) => where.frequency ?? 0)
}

describe('ISO 8253-1:2010', () => {
  const source = 'ISO 8253-1:2010, 8.4 and 6.2.3.2'

  it('bone conduction that may be felt', () => {
    const felt = (vibrator: 'bone-mastoid' | 'bone-forehead', bone: Record<number, number>) =>
      found('possibly-vibrotactile', { boneMasked: bone, vibrator })
    checkValue({
      ...decision,
      source,
      what: 'mastoid 500 Hz 60, 1 kHz 55',
      expected: [500],
      actual: felt('bone-mastoid', { 500: 60, 1000: 55 }),
    })
    checkValue({
      ...decision,
      source,
      what: 'mastoid at the three levels',
      expected: [250, 500, 1000],
      actual: felt('bone-mastoid', { 250: 40, 500: 60, 1000: 70 }),
    })
    checkValue({
      ...decision,
      source,
      what: 'mastoid 5 dB below',
      expected: [],
      actual: felt('bone-mastoid', { 250: 35, 500: 55, 1000: 65 }),
    })
    checkValue({
      ...decision,
      source,
      what: 'forehead 10 dB lower',
      expected: [250, 500, 1000],
      actual: felt('bone-forehead', { 250: 30, 500: 50, 1000: 60 }),
    })
  })

  it('the repeat at 1 kHz', () => {
    const again = (second: number) => found('retest-1-khz', { air: { 1000: 30 }, again: second })
    checkValue({ ...decision, source, what: 'apart 5 dB', expected: [], actual: again(35) })
    checkValue({ ...decision, source, what: 'apart 10 dB', expected: [1000], actual: again(20) })
  })
})

describe('Margolis et al. 2013', () => {
  const source = 'Margolis et al. 2013, false air-bone gaps at 4 kHz'

  it('a lone gap at 4 kHz is remarked on', () => {
    const gap = (at4: number, at2: number) =>
      found('lone-4-khz-gap', {
        air: { 500: 40, 1000: 40, 2000: 40 + at2, 4000: 40 + at4 },
        boneMasked: { 500: 40, 1000: 40, 2000: 40, 4000: 40 },
        step: 1,
      })
    checkValue({ ...decision, source, what: '14.1 dB', expected: [4000], actual: gap(14.1, 0) })
    checkValue({ ...decision, source, what: '10.6 dB', expected: [4000], actual: gap(10.6, 0) })
    checkValue({ ...decision, source, what: '25 dB is a gap', expected: [], actual: gap(25, 0) })
    checkValue({ ...decision, source, what: 'with a gap at 2 kHz too', expected: [], actual: gap(15, 20) })
  })
})
