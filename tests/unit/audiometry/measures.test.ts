import { describe, expect, it } from 'vitest'
import { requireFrequency, requireWithin } from '../../../lib/audiometry/domain.ts'
import { compareTests, measuresOfTest } from '../../../lib/audiometry/measures.ts'
import { ears } from '../../fixtures/tested-ears.ts'

const before = ears(
  { air: { 500: 60, 1000: 60, 2000: 55, 3000: 55 }, bone: { 500: 20, 1000: 20, 2000: 30, 3000: 25, 4000: 30 } },
  { air: { 500: 10, 1000: 10, 2000: 10, 3000: 10, 4000: 10 } },
)
const after = ears(
  { air: { 500: 30, 1000: 25, 2000: 30, 3000: 35 }, bone: { 500: 20, 1000: 15, 2000: 20, 3000: 25, 4000: 35 } },
  { air: { 500: 10, 1000: 10, 2000: 10, 3000: 10, 4000: 10 } },
)

describe('the measures of a test', () => {
  it('hold every average by its convention, and what is missing from those that have no value', () => {
    const { right } = measuresOfTest({ ears: before })
    const airAverage = (id: string) => right.airAverages.find(({ convention }) => convention.id === id)
    expect(airAverage('pta4-aao')?.value).toBe(57.5)
    expect(airAverage('pta4-who')).toMatchObject({ missing: [4000] })
    expect(airAverage('pta4-who')?.value).toBeUndefined()
  })

  it('leave the age norm out while age and sex are unknown', () => {
    expect(measuresOfTest({ ears: before }).right.innerEarForAge).toBeUndefined()
    const group = { edition: '2017', sex: 'female', age: 54 } as const
    expect(measuresOfTest({ ears: before, group }).right.innerEarForAge?.thresholds).toHaveLength(5)
  })

  it('pass word scores to the asymmetry rule that needs them', () => {
    const { asymmetries } = measuresOfTest({ ears: before, wordScores: { right: 80, left: 100 } })
    expect(asymmetries.find(({ rule }) => rule.id === 'aao15')).toMatchObject({
      outcome: 'asymmetric',
      poorerEar: 'right',
    })
  })
})

describe('two tests of one ear', () => {
  it('are compared for the ear that was asked for', () => {
    const right = compareTests({ before, after }, 'right')
    const left = compareTests({ before, after }, 'left')
    expect(right.closure.closure).toEqual({ kind: 'exact', value: 23.75 })
    expect(right.airThresholds.map(({ verdict }) => verdict)).toEqual(['better', 'better', 'better', 'better'])
    expect(left.closure.closure).toBeUndefined()
    expect(new Set(left.airThresholds.map(({ verdict }) => verdict))).toEqual(new Set(['within test-retest error']))
  })
})

describe('a misused argument', () => {
  it('is named with its value and its domain', () => {
    expect(() => requireFrequency('frequency', 1234)).toThrow(/^frequency is 1234, but must be one of 125, 250, .* Hz$/)
    expect(() => requireWithin('age', Number.NaN, 18, 80, 'years')).toThrow(
      'age is NaN, but must be from 18 to 80 years',
    )
    expect(() => measuresOfTest({ ears: ears({ air: { 1000: -25 } }, {}) })).toThrow(RangeError)
  })
})
