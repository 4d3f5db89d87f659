// BSA Recommended Procedure 2018, rules 1 to 3 (from memory, unconfirmed); interaural attenuation 40 dB supra-aural.
// ASHA 2005: air at least the minimum interaural attenuation above the other ear's bone, gap of more than 10 dB.
// Masking window: handbook arithmetic, at least air of the masked ear + 10, at most bone of the test ear + attenuation - 5.
import { describe, it } from 'vitest'
import { maskingWindow, minimumAttenuation, occlusionAt } from '../../lib/audiometry/interaural-attenuation.ts'
import { type MaskingProcedure, maskingFindings } from '../../lib/audiometry/masking-findings.ts'
import type { TestedEars } from '../../lib/audiometry/tested-ear.ts'
import { ears } from '../fixtures/tested-ears.ts'
import { checkValue } from './record-check.ts'

const decision = { tolerance: 0, why: 'a decision' } as const

/** Which rules ask for masking, as "id ear route". */
function asked(test: TestedEars, procedure: MaskingProcedure = 'bsa-2018'): string[] {
  return maskingFindings(test, procedure)
    .filter(({ id }) => id.startsWith('mask-'))
    .map(({ id, where }) => `${id} ${where.ear} ${where.route}`)
}

describe('BSA 2018', () => {
  const source = 'BSA Recommended Procedure 2018, rules 1 to 3'
  const check = (what: string, expected: string[], actual: string[]) =>
    checkValue({ ...decision, source, what, expected, actual })

  it('rule 1: ears 40 dB apart, 55 dB with insert earphones', () => {
    const apart = (difference: number, earphone: 'supra-aural' | 'insert') =>
      asked(ears({ air: { 1000: 10 + difference }, earphone }, { air: { 1000: 10 }, earphone }))
    check('45 dB supra-aural', ['mask-air-bsa-1 right air'], apart(45, 'supra-aural'))
    check('45 dB insert', [], apart(45, 'insert'))
    check('40 dB supra-aural', ['mask-air-bsa-1 right air'], apart(40, 'supra-aural'))
    check('35 dB supra-aural', [], apart(35, 'supra-aural'))
    check('55 dB insert', ['mask-air-bsa-1 right air'], apart(55, 'insert'))
  })

  it('rule 2: bone conduction 10 dB better than air conduction, worse ear tested', () => {
    const gap = (difference: number) =>
      asked(ears({ air: { 1000: 30 }, bone: { 1000: 30 - difference } }, { air: { 1000: 20 } }))
    check('10 dB', ['mask-bone-bsa-2 right bone'], gap(10))
    check('5 dB', [], gap(5))
  })

  it('rule 3: air conduction 40 dB above the bone conduction of the other ear', () => {
    const bothConductive = (bone: number) =>
      asked(ears({ air: { 1000: 50 }, boneMasked: { 1000: bone } }, { air: { 1000: 50 }, boneMasked: { 1000: bone } }))
    check('40 dB on both sides', ['mask-air-bsa-3 right air', 'mask-air-bsa-3 left air'], bothConductive(10))
    check('35 dB', [], bothConductive(15))
  })

  it('is satisfied by a masked threshold', () => {
    check('masked', [], asked(ears({ air: { 1000: 60 }, airMasked: { 1000: 70 } }, { air: { 1000: 10 } })))
  })
})

describe('ASHA 2005', () => {
  const source = 'ASHA 2005, manual pure-tone threshold audiometry'

  it('masks air at the minimum interaural attenuation and bone at a gap of more than 10 dB', () => {
    const test = (air: number, bone: number) =>
      asked(ears({ air: { 1000: air }, bone: { 1000: bone } }, { air: { 1000: 10 }, bone: { 1000: 10 } }), 'asha-2005')
    checkValue({
      ...decision,
      source,
      what: 'air 50, bone 10',
      expected: ['mask-air-asha right air', 'mask-bone-asha right bone'],
      actual: test(50, 10),
    })
    checkValue({
      ...decision,
      source,
      what: 'air 45, bone 10',
      expected: ['mask-bone-asha right bone'],
      actual: test(45, 10),
    })
    checkValue({ ...decision, source, what: 'air 20, bone 10', expected: [], actual: test(20, 10) })
  })

  it('uses the minimum of each frequency', () => {
    const at = (['supra-aural', 'insert'] as const).flatMap((transducer) =>
      ([250, 1000, 2000, 4000] as const).map((frequency) => minimumAttenuation(transducer, frequency)),
    )
    checkValue({
      source: 'Handbook minima of interaural attenuation',
      what: '250, 1000, 2000, 4000 Hz',
      expected: [40, 40, 45, 50, 75, 60, 55, 65],
      actual: at,
      tolerance: 0,
      why: 'printed value',
    })
  })
})

describe('masking window', () => {
  const source = 'Handbook arithmetic of masking levels'

  it('closes when the masked ear is poor and the inner ear under test is good', () => {
    const window = maskingWindow({ airNonTest: 60, boneTest: 5, interauralAttenuation: 40, occlusionEffect: 0 })
    checkValue({
      source,
      what: 'least 60 + 10, most 5 + 40 - 5',
      expected: [70, 40],
      actual: [window.least, window.most],
      tolerance: 0,
      why: 'whole dB',
    })
    checkValue({ ...decision, source, what: 'dilemma', expected: true, actual: window.dilemma })
  })

  it('adds the occlusion effect for bone conduction', () => {
    const actual = ([250, 500, 750, 1000, 1500, 2000, 3000, 4000] as const).map(occlusionAt)
    checkValue({
      source: 'Occlusion effect, teaching-clinic rule',
      what: '250 to 4000 Hz',
      expected: [15, 15, 15, 10, 0, 0, 0, 0],
      actual,
      tolerance: 0,
      why: 'printed value',
    })
    const window = maskingWindow({ airNonTest: 10, boneTest: 10, interauralAttenuation: 40, occlusionEffect: 15 })
    checkValue({
      source,
      what: 'bone at 500 Hz: 10 + 10 + 15 and 10 + 40 - 5',
      expected: [35, 45],
      actual: [window.least, window.most],
      tolerance: 0,
      why: 'whole dB',
    })
  })
})
