import { describe, expect, it } from 'vitest'
import { readFilter } from '../../../lib/interchange/series-filter.ts'
import { meanAudiogram } from '../../../lib/outcomes/mean-audiogram.ts'
import { reportingBins } from '../../../lib/outcomes/reporting-bins.ts'
import { scattergram } from '../../../lib/outcomes/scattergram.ts'
import { chainStateOf } from '../../../lib/outcomes/series-case.ts'
import { coursePoints, seriesCourse } from '../../../lib/outcomes/series-course.ts'
import { earResult } from '../../../lib/outcomes/series-result.ts'
import { isSelected, onePerPatient } from '../../../lib/outcomes/series-selection.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { caseOf, visitOf } from '../../fixtures/series-ears.ts'

const flat = (level: number) => audiogram({ 500: level, 1000: level, 2000: level, 3000: level, 4000: level })
const ear = (aided: number, bone = 20, over = {}) =>
  caseOf({
    visits: [
      visitOf({ air: flat(60), bone: flat(20), wordsPercent: 40 }),
      visitOf({
        visit: 'v',
        occasion: '12-months',
        aided: flat(aided),
        bone: flat(bone),
        wordsPercent: 85,
        ...over,
      }),
    ],
  })
const resultsOf = (...ears: ReturnType<typeof ear>[]) => ears.map((each) => earResult(each, 'latest'))

describe('reporting bins', () => {
  it('hold each ear once, the upper edge within', () => {
    const { bins, missing, undecided } = reportingBins(resultsOf(ear(30), ear(31), ear(40), ear(50), ear(51), ear(15)))
    expect(bins.map(({ bin, count, total }) => [bin, count, total])).toEqual([
      ['<= 10', 2, 6],
      ['> 10 to 20', 2, 6],
      ['> 20 to 30', 1, 6],
      ['> 30', 1, 6],
    ])
    expect([missing, undecided]).toEqual([0, 0])
  })

  it('say what is missing, and what no response leaves open', () => {
    const open = ear(0, 20, { aided: audiogram({ 500: 30, 1000: 30, 2000: 30, 3000: { none: 30 } }) })
    const { undecided, missing, bins } = reportingBins(resultsOf(open, caseOf(), ear(25)))
    expect([undecided, missing]).toEqual([1, 1])
    expect(bins[0]).toEqual({ bin: '<= 10', count: 1, total: 1, low: null, high: null })
  })

  it('count bone conduction that became worse by more than 10 dB', () => {
    expect(reportingBins(resultsOf(ear(30, 30), ear(30, 31))).innerEarLoss).toMatchObject({ count: 1, total: 2 })
  })
})

describe('the scattergram', () => {
  it('has each ear in a cell of 10 dB by 10 %, and 100 % in the last', () => {
    const all = ear(25, 20, { wordsPercent: 100 })
    const { before, change, nChange, missingChange } = scattergram(
      resultsOf(ear(25), ear(26), all, ear(25, 20, { wordsPercent: undefined })),
    )
    expect(before).toEqual([{ averageDb: 50, wordsPercent: 30, n: 4 }])
    // 60 to 25 and 26 dB HL are falls of 35 and 34 dB; 40 to 85 and 100 % are rises of 45 and 60.
    expect(change).toEqual([
      { averageDb: -40, wordsPercent: 40, n: 2 },
      { averageDb: -40, wordsPercent: 50, n: 1 },
    ])
    expect([nChange, missingChange]).toEqual([3, 1])
  })
})

describe('the mean audiogram', () => {
  it('counts no response and leaves it out of the mean', () => {
    const silent = ear(0, 20, { aided: audiogram({ 4000: { none: 90 } }) })
    const aided = meanAudiogram('aided-after', resultsOf(ear(30), ear(40), silent))
    expect(aided?.byFrequency.find(({ frequency }) => frequency === 4000)).toEqual({
      frequency: 4000,
      n: 2,
      mean: 35,
      low: null,
      high: null,
      sd: null,
      noResponse: 1,
      missing: 0,
    })
    expect(aided?.byFrequency.find(({ frequency }) => frequency === 8000)).toMatchObject({
      n: 0,
      mean: null,
      missing: 3,
    })
  })
})

describe('the course', () => {
  it('is in the order of time, with how many ears were seen and measured', () => {
    const course = seriesCourse([ear(30), ear(40, 20, { aided: new Map() })].map(coursePoints))
    expect(course.map(({ occasion, ears, threshold }) => [occasion, ears, threshold.n, threshold.mean])).toEqual([
      ['before', 2, 2, 60],
      ['12-months', 2, 1, 30],
    ])
    expect(course[1]?.gain.mean).toBe(-10)
  })
})

describe('which ears', () => {
  it('are chosen by every filter at once', () => {
    const of = caseOf({ tags: ['a', 'b'], stapes: 'fixed' })
    expect(isSelected(of, { tags: ['a'], chain: 'fixed', from: '2025-02-03', to: '2025-02-03' })).toBe(true)
    expect(isSelected(of, { tags: ['a', 'c'] })).toBe(false)
    expect(isSelected({ ...of, operatedOn: null }, { from: '2020-01-01' })).toBe(false)
    expect(chainStateOf({ malleus: 'mobile', incus: 'missing', stapes: 'mobile' })).toBe('interrupted')
    expect(chainStateOf({ malleus: 'mobile', incus: null, stapes: 'mobile' })).toBe('not-known')
  })

  it('are one a patient, the first operated', () => {
    const [late, early] = [caseOf({ patient: 'x', operatedOn: '2025-05-01' }), caseOf({ patient: 'x' })]
    expect(onePerPatient([late, early])).toEqual([early])
  })

  it('stand in the address, and nothing else does', () => {
    expect(readFilter(new URLSearchParams('site=skull&tag=a&tag=b&at=yearly'))).toEqual({
      ok: true,
      filter: { site: 'skull', tags: ['a', 'b'], at: 'yearly', measure: 'effective-gain' },
    })
    expect(readFilter(new URLSearchParams('tag=a,b'))).toEqual({ ok: false, field: 'tag', value: 'a,b' })
    expect(readFilter(new URLSearchParams('__proto__=1'))).toMatchObject({ ok: false, field: '__proto__' })
  })
})
