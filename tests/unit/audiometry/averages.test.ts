import { describe, expect, it } from 'vitest'
import { pureToneAverage } from '../../../lib/audiometry/averages.ts'
import { gradeEar, gradeWho2021 } from '../../../lib/audiometry/grades.ts'
import { audiogram } from '../../fixtures/audiograms.ts'

const flat = (level: number) =>
  audiogram({ 250: level, 500: level, 1000: level, 2000: level, 3000: level, 4000: level })

describe('an average with a frequency missing', () => {
  it('has no value and says what is missing', () => {
    const result = pureToneAverage(audiogram({ 500: 40, 2000: 50, 4000: 'could-not-test' }), 'pta4-who')
    expect(result.value).toBeUndefined()
    expect(result.missing).toEqual([1000, 4000])
  })

  it('is not rescued by interpolation unless 2 and 4 kHz are both there', () => {
    const result = pureToneAverage(audiogram({ 500: 40, 1000: 40, 2000: 50 }), 'pta4-aao')
    expect(result.missing).toEqual([3000])
    expect(result.value).toBeUndefined()
  })

  it('lists the whole set for an empty test', () => {
    expect(pureToneAverage(new Map(), 'fletcher2').missing).toEqual([500, 1000, 2000])
  })
})

describe('no response', () => {
  it('makes an average a lower bound where the scheme has no number for it', () => {
    const result = pureToneAverage(audiogram({ 500: 60, 1000: 80, 2000: 100, 4000: { none: 120 } }), 'pta4-who')
    expect(result).toMatchObject({ value: 90, censored: true })
  })

  it('at 4 kHz makes an interpolated 3 kHz a lower bound too', () => {
    const result = pureToneAverage(audiogram({ 500: 60, 1000: 80, 2000: 100, 4000: { none: 120 } }), 'pta4-aao')
    expect(result).toMatchObject({ value: 87.5, censored: true, substituted: { uncertain: true } })
  })

  it('counts 130 dB in the five-frequency average', () => {
    const ear = audiogram({ 250: 70, 500: 80, 1000: 90, 2000: 100, 4000: { none: 120 } })
    expect(pureToneAverage(ear, 'pta5-bsa')).toMatchObject({ value: 94, censored: false })
  })

  it('does not spoil the best two when it is not among them', () => {
    const result = pureToneAverage(audiogram({ 500: 60, 1000: 80, 2000: { none: 120 } }), 'fletcher2')
    expect(result).toMatchObject({ value: 70, censored: false })
  })

  it('leaves worse grades open, except in the last one', () => {
    expect(gradeEar(audiogram({ 500: 60, 1000: 60, 2000: 60, 4000: { none: 100 } }), 'who-2021')).toMatchObject({
      grade: 'severe',
      orWorse: true,
    })
    expect(gradeEar(audiogram({ 500: 110, 1000: 110, 2000: 110, 4000: { none: 120 } }), 'who-2021')).toMatchObject({
      grade: 'complete',
      orWorse: false,
    })
  })

  it('in the poorer ear does not blur the better ear', () => {
    const poor = audiogram({ 500: { none: 120 }, 1000: { none: 120 }, 2000: { none: 120 }, 4000: { none: 120 } })
    expect(gradeWho2021({ right: poor, left: flat(40) })).toMatchObject({
      betterEarAverage: 40,
      grade: 'moderate',
      orWorse: false,
      unilateral: false,
    })
  })
})

describe('a level outside the domain', () => {
  it('is refused with argument, value and domain', () => {
    expect(() => pureToneAverage(flat(200), 'pta3')).toThrow(
      new RangeError('audiogram level at 500 Hz is 200, but must be a hearing level from -20 to 130 dB HL'),
    )
    expect(() => pureToneAverage(flat(Number.NaN), 'pta3')).toThrow(RangeError)
  })
})
