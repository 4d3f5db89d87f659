import { describe, expect, it } from 'vitest'
import { innerEarForAge } from '../../../lib/audiometry/expected-for-age.ts'
import { ageNorm, iso7029FrequenciesHz, thresholdAtShare } from '../../../lib/audiometry/iso-7029.ts'
import { audiogram } from '../../fixtures/audiograms.ts'

const man60 = { edition: '2017', sex: 'male', age: 60 } as const

describe('age norm', () => {
  it('refuses an age outside the edition, naming it', () => {
    expect(() => ageNorm({ ...man60, age: 17 }, 1000)).toThrow('age is 17, but must be from 18 to 80 years')
    expect(() => ageNorm({ ...man60, age: 81 }, 1000)).toThrow(RangeError)
    expect(() => ageNorm({ ...man60, age: Number.NaN }, 1000)).toThrow(RangeError)
  })

  it('marks what is informative and what is extrapolated', () => {
    expect(ageNorm({ ...man60, age: 75 }, 2000).validity).toBe('normative')
    expect(ageNorm({ ...man60, age: 75 }, 3000).validity).toBe('informative')
    expect(ageNorm({ edition: '2000', sex: 'male', age: 75 }, 1000).validity).toBe('extrapolated')
  })

  it('keeps both spreads positive at every age that it accepts', () => {
    for (const sex of ['male', 'female'] as const) {
      for (let age = 18; age <= 80; age++) {
        for (const frequency of iso7029FrequenciesHz) {
          const norm = ageNorm({ edition: '2017', sex, age }, frequency)
          expect(Math.min(norm.spreadWorse, norm.spreadBetter), `${sex} ${age} ${frequency}`).toBeGreaterThan(0)
        }
      }
    }
  })

  it('refuses a share of 0 or 1', () => {
    const norm = ageNorm(man60, 1000)
    expect(() => thresholdAtShare(norm, 1)).toThrow('share is 1, but must be between 0 and 1, both exclusive')
  })
})

describe('inner ear for age', () => {
  it('calls 10 dB at 1 kHz expected and 50 dB worse at 60 years', () => {
    const result = innerEarForAge(audiogram({ 1000: 10, 2000: 50 }), man60)
    expect(result.thresholds.map(({ verdict }) => verdict)).toEqual(['as expected', 'worse than expected'])
  })

  it('cannot tell from no response below the expected limit', () => {
    const result = innerEarForAge(audiogram({ 4000: { none: 20 } }), man60)
    expect(result.thresholds[0]).toMatchObject({ verdict: 'cannot tell', percentileIsLowerBound: true })
  })

  it('says that the edition does not cover a child', () => {
    expect(innerEarForAge(audiogram({ 1000: 10 }), { ...man60, age: 9 })).toMatchObject({
      ageOutside: true,
      thresholds: [],
    })
  })
})
