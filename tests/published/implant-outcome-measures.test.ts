// Functional gain: unaided minus aided sound field; effective gain: bone conduction minus aided sound field.
// Maier et al., Audiol Neurotol 23:105-115, 2018; Maier et al., Otol Neurotol 43:513-529, 2022.
// The pair 70 to 40 and 40 to 10 dB HL, both 30 dB of functional gain: Snik 2018.
import { describe, it } from 'vitest'
import type { Difference } from '../../lib/audiometry/differences.ts'
import { aidedResidualGap, effectiveGain, functionalGain, type GainResult } from '../../lib/audiometry/gains.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const source = 'Maier et al. 2018 and 2022, aided outcome measures'
const exact = { source, tolerance: 1e-9, why: 'whole dB' } as const
const value = (of: Difference | undefined) => (of?.kind === 'exact' ? of.value : Number.NaN)
const mean = (result: GainResult) => value(result.means.find(({ set }) => set === 'pta4-who')?.difference)
const profile = (result: GainResult) => [...result.byFrequency.values()].map(value)

const unaided = audiogram({ 500: 65, 1000: 60, 2000: 60, 4000: 55 })
const aided = audiogram({ 500: 35, 1000: 30, 2000: 25, 4000: 30 })
const bone = audiogram({ 500: 15, 1000: 15, 2000: 25, 4000: 25 })

describe('aided outcome measures', () => {
  it('give the functional gain', () => {
    const result = functionalGain({ unaided, aided })
    checkValue({ ...exact, what: 'functional gain', expected: [30, 30, 35, 25], actual: profile(result) })
    checkValue({ ...exact, what: 'its mean', expected: 30, actual: mean(result) })
  })

  it('give the effective gain and the gap that remains', () => {
    const result = effectiveGain({ bone, aided })
    checkValue({ ...exact, what: 'effective gain', expected: [-20, -15, 0, -5], actual: profile(result) })
    checkValue({ ...exact, what: 'its mean', expected: -10, actual: mean(result) })
    checkValue({ ...exact, what: 'residual gap', expected: 10, actual: mean(aidedResidualGap({ aided, bone })) })
  })

  it('tell apart what functional gain does not', () => {
    const flat = (level: number) => audiogram({ 500: level, 1000: level, 2000: level, 4000: level })
    const poor = { unaided: flat(70), aided: flat(40), bone: flat(0) }
    const good = { unaided: flat(40), aided: flat(10), bone: flat(0) }
    const snik = { ...exact, source: 'Snik 2018, functional gain and the air-bone gap' }
    checkValue({ ...snik, what: '70 to 40', expected: 30, actual: mean(functionalGain(poor)) })
    checkValue({ ...snik, what: '40 to 10', expected: 30, actual: mean(functionalGain(good)) })
    checkValue({ ...snik, what: 'gap left of the first', expected: 40, actual: mean(aidedResidualGap(poor)) })
    checkValue({ ...snik, what: 'gap left of the second', expected: 10, actual: mean(aidedResidualGap(good)) })
  })
})
