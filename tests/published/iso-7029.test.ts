// ISO 7029:2017: median a (age - 18)^b, spreads as polynomials of degree 5; at 18 years the median deviation is 0 and the
// spreads are the constant terms c0 of Tables 2 to 5. Values at 60 years (7.8473, 20.2085, 15.3218 dB; su 10.1533 dB)
// are those pinned by the open library jmrplens/phonometry (tests/hearing/test_hearing.py), computed in Python.
// ISO 7029:2000: median alpha (age - 18)^2; values by hand: 0.009 x 47^2 = 19.881; spread 7.78 + 0.445 x 19.881 =
// 16.6270; 90th percentile 19.881 + 1.28155 x 16.6270 = 41.189.
import { describe, it } from 'vitest'
import { ageNorm, percentileOf, thresholdAtShare } from '../../lib/audiometry/iso-7029.ts'
import { checkValue } from './record-check.ts'

const man = (age: number) => ({ edition: '2017', sex: 'male', age }) as const
const woman = (age: number) => ({ edition: '2017', sex: 'female', age }) as const

describe('ISO 7029:2017', () => {
  const source = 'ISO 7029:2017'
  const four = { source, tolerance: 0.00005, why: 'given with four decimals' } as const

  it('has the medians at 60 years', () => {
    checkValue({ ...four, what: 'man, 1 kHz', expected: 7.8473, actual: ageNorm(man(60), 1000).median })
    checkValue({ ...four, what: 'man, 4 kHz', expected: 20.2085, actual: ageNorm(man(60), 4000).median })
    checkValue({ ...four, what: 'woman, 4 kHz', expected: 15.3218, actual: ageNorm(woman(60), 4000).median })
  })

  it('has the spread of the worse half at 60 years', () => {
    checkValue({ ...four, what: 'man, 1 kHz', expected: 10.1533, actual: ageNorm(man(60), 1000).spreadWorse })
  })

  it('starts from 0 dB and the constant terms of Tables 2 to 5 at 18 years', () => {
    const constant = { source, tolerance: 1e-12, why: 'a constant term' } as const
    const frequencies = [125, 1000, 4000, 8000] as const
    const at18 = (who: typeof man | typeof woman) => frequencies.map((frequency) => ageNorm(who(18), frequency))
    checkValue({ ...constant, what: 'median', expected: [0, 0, 0, 0], actual: at18(man).map((norm) => norm.median) })
    checkValue({
      ...constant,
      what: 'Table 2, men, worse',
      expected: [4.63, 4.42, 4.68, 6.62],
      actual: at18(man).map((norm) => norm.spreadWorse),
    })
    checkValue({
      ...constant,
      what: 'Table 3, men, better',
      expected: [3.34, 3.77, 4.09, 3.9],
      actual: at18(man).map((norm) => norm.spreadBetter),
    })
    checkValue({
      ...constant,
      what: 'Table 4, women, worse',
      expected: [5.05, 4.34, 4.61, 5.84],
      actual: at18(woman).map((norm) => norm.spreadWorse),
    })
    checkValue({
      ...constant,
      what: 'Table 5, women, better',
      expected: [3.64, 3.15, 3.84, 4.15],
      actual: at18(woman).map((norm) => norm.spreadBetter),
    })
  })

  it('has half of the group at the median and the standard normal quantiles around it', () => {
    const norm = ageNorm(man(60), 1000)
    checkValue({
      source,
      what: 'percentile of the median',
      expected: 50,
      actual: percentileOf(norm, norm.median),
      tolerance: 1e-9,
      why: 'by definition',
    })
    const oneSpread = percentileOf(norm, norm.median + norm.spreadWorse)
    checkValue({
      source,
      what: 'percentile one spread worse',
      expected: 84.1345,
      actual: oneSpread,
      tolerance: 0.00005,
      why: 'normal table, four decimals',
    })
    const oneBetter = percentileOf(norm, norm.median - norm.spreadBetter)
    checkValue({
      source,
      what: 'percentile one spread better',
      expected: 15.8655,
      actual: oneBetter,
      tolerance: 0.00005,
      why: 'normal table, four decimals',
    })
  })
})

describe('ISO 7029:2000', () => {
  const source = 'ISO 7029:2000'

  it('has median and 90th percentile of women of 65 at 4 kHz', () => {
    const norm = ageNorm({ edition: '2000', sex: 'female', age: 65 }, 4000)
    const three = { source, tolerance: 0.0005, why: 'given with three decimals' } as const
    checkValue({ ...three, what: 'median', expected: 19.881, actual: norm.median })
    checkValue({ ...three, what: '90th percentile', expected: 41.189, actual: thresholdAtShare(norm, 0.9) })
  })

  it('stands 10 dB above the later edition for men of 70 at 4 kHz', () => {
    const one = { tolerance: 0.05, why: 'given with one decimal' } as const
    const earlier = ageNorm({ edition: '2000', sex: 'male', age: 70 }, 4000).median
    checkValue({ ...one, source, what: 'man of 70, 4 kHz', expected: 43.3, actual: earlier })
    checkValue({
      ...one,
      source: 'ISO 7029:2017',
      what: 'man of 70, 4 kHz',
      expected: 33.2,
      actual: ageNorm(man(70), 4000).median,
    })
  })
})
