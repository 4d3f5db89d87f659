import { describe, expect, it } from 'vitest'
import { findingText } from '../../../app/board/measures/finding-text.ts'
import type { Finding, FindingId } from '../../../lib/audiometry/findings.ts'
import { findingRules } from '../../../lib/audiometry/findings.ts'
import { reviewTest } from '../../../lib/audiometry/review-test.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { type EarWords, ears } from '../../fixtures/tested-ears.ts'
import { messages } from '../../support/messages.ts'

const ids = (right: EarWords, left: EarWords = {}) => reviewTest({ ears: ears(right, left) }).map(({ id }) => id)
const textOf = (finding: Finding) => findingText(finding, messages.measures.findings.sentences)
const normal = { air: { 500: 10, 1000: 10, 2000: 10, 4000: 10 } }

describe('masking', () => {
  it('asks for nothing where an unmasked tone was heard by neither ear', () => {
    expect(ids({ air: { 1000: { none: 120 } } }, { air: { 1000: 10 } })).toEqual([])
  })

  it('asks for bone conduction when air conduction gave no response', () => {
    expect(ids({ air: { 1000: { none: 120 } }, bone: { 1000: 40 } }, { air: { 1000: 45 } })).toContain(
      'mask-bone-bsa-2',
    )
  })

  it('warns of overmasking where a masked threshold had no safe level', () => {
    const conductive = { air: { 1000: 60 }, airMasked: { 1000: 60 }, boneMasked: { 1000: 5 } }
    expect(ids(conductive, conductive).filter((id) => id === 'overmasking-risk')).toHaveLength(4)
  })

  it('has room for masking with insert earphones', () => {
    const conductive = {
      air: { 1000: 50 },
      airMasked: { 1000: 50 },
      boneMasked: { 1000: 10 },
      earphone: 'insert',
    } as const
    expect(ids(conductive, conductive)).not.toContain('overmasking-risk')
  })

  it('tells a dilemma where masking is still to be done', () => {
    const conductive = { air: { 1000: 60 }, bone: { 1000: 5 } }
    expect(ids(conductive, conductive)).toContain('masking-dilemma')
  })

  it('leaves out the occlusion effect of an ear that has a gap', () => {
    const risks = (bone: number) => {
      const conductive = { airMasked: { 500: 40 }, boneMasked: { 500: bone } }
      return ids(conductive, conductive).filter((id) => id === 'overmasking-risk')
    }
    expect(risks(20)).toEqual([])
    expect(risks(25)).toHaveLength(2)
  })
})

describe('cross-hearing', () => {
  it('suspects a shadow curve that runs parallel to the other inner ear', () => {
    const shadow = { air: { 500: 55, 1000: 60, 2000: 60, 4000: 65 } }
    expect(ids(shadow, normal)).toContain('possible-shadow-curve')
  })

  it('does not, when the curve diverges or was masked', () => {
    expect(ids({ air: { 500: 50, 1000: 65, 2000: 75 } }, normal)).not.toContain('possible-shadow-curve')
    expect(ids({ airMasked: { 500: 55, 1000: 60, 2000: 60 } }, normal)).not.toContain('possible-shadow-curve')
  })

  it('remarks from 40 dB HL on that the other ear was not tested', () => {
    expect(ids({ air: { 1000: 40 } })).toContain('cross-hearing-not-excluded')
    expect(ids({ air: { 1000: 35 } })).toEqual([])
  })
})

describe('one ear', () => {
  it('flags bone conduction from 15 dB worse than air conduction', () => {
    expect(ids({ air: { 1000: 20 }, boneMasked: { 1000: 35 } })).toContain('bone-worse-than-air')
    expect(ids({ air: { 1000: 20 }, boneMasked: { 1000: 30 } })).toEqual([])
  })

  it('flags no response by bone above the air-conduction threshold', () => {
    expect(ids({ air: { 1000: 20 }, boneMasked: { 1000: { none: 60 } } })).toContain('bone-worse-than-air')
  })

  it('flags levels that the audiometer does not reach, by frequency and route', () => {
    expect(ids({ airMasked: { 8000: 105 } })).toContain('beyond-audiometer')
    expect(ids({ airMasked: { 8000: 100 } })).toEqual([])
    expect(ids({ boneMasked: { 4000: 65 } })).toContain('beyond-audiometer')
  })

  it('flags a level off the 5 dB step unless a smaller one is declared', () => {
    expect(ids({ air: { 1000: 23 } })).toEqual(['off-step'])
    expect(ids({ air: { 1000: 23 }, step: 1 })).toEqual([])
  })

  it('tells speech that is better than tones from speech that is poorer', () => {
    const tones = { air: { 500: 30, 1000: 30, 2000: 30 } }
    expect(ids({ ...tones, speech: 10 })).toEqual(['speech-better-than-tones'])
    expect(ids({ ...tones, speech: 45 })).toEqual(['speech-poorer-than-tones'])
    expect(ids({ ...tones, speech: 40 })).toEqual([])
  })
})

describe('exchanged ears', () => {
  const right = { 500: 60, 1000: 60, 2000: 60 }
  const left = { 500: 30, 1000: 30, 2000: 30 }
  const earlier = [{ date: '2025-03-01', air: { right: audiogram(right), left: audiogram(left) } }]

  it('are suspected when each ear looks like the other one did', () => {
    const found = reviewTest({ ears: ears({ air: left }, { air: right }), earlier })
    expect(found.map(({ id }) => id)).toContain('ears-swapped')
  })

  it('are not suspected of equal ears, nor when one ear changed by an operation', () => {
    const same = reviewTest({ ears: ears({ air: right }, { air: left }), earlier })
    const operated = reviewTest({ ears: ears({ air: { 500: 25, 1000: 20, 2000: 25 } }, { air: left }), earlier })
    expect([...same, ...operated].map(({ id }) => id)).not.toContain('ears-swapped')
  })
})

describe('a review', () => {
  const busy = ears(
    {
      air: { 500: 55, 1000: 60, 2000: 62, 8000: 110 },
      bone: { 500: 60, 1000: 5, 2000: 5 },
      speech: 20,
      again: 45,
    },
    { air: { 500: 10, 1000: 10, 2000: 10 } },
  )

  it('puts the urgent first', () => {
    const order = reviewTest({ ears: busy }).map(({ severity }) => severity)
    const rank = { urgent: 0, check: 1, remark: 2 }
    expect(order).toEqual(order.toSorted((a, b) => rank[a] - rank[b]))
    expect(order[0]).toBe('urgent')
  })

  it('says of every finding what, why and what to do, without a gap in the sentence', () => {
    const seen = new Set<FindingId>()
    for (const finding of everyFinding()) {
      seen.add(finding.id)
      const text = Object.values(textOf(finding)).join(' ')
      expect(text, finding.id).not.toMatch(/undefined|NaN|null|\[object/)
      expect(textOf(finding).whatToDo, finding.id).toMatch(/\.$/)
    }
    expect([...seen].toSorted()).toEqual(Object.keys(findingRules).toSorted())
  })

  it('refuses a level outside the domain, naming ear, route and frequency', () => {
    expect(() => reviewTest({ ears: ears({ air: { 1000: 200 } }, {}) })).toThrow(
      new RangeError('right air level at 1000 Hz is 200, but must be a hearing level from -20 to 130 dB HL'),
    )
  })

  function everyFinding(): readonly Finding[] {
    const conductive = { air: { 1000: 60 }, airMasked: { 1000: 60 }, boneMasked: { 1000: 5 } }
    const swapped = {
      right: audiogram({ 500: 10, 1000: 10, 2000: 10 }),
      left: audiogram({ 500: 55, 1000: 60, 2000: 60 }),
    }
    return [
      ...reviewTest({ ears: busy, earlier: [{ date: '2025-03-01', air: swapped }] }),
      ...reviewTest({ ears: busy, procedure: 'asha-2005' }),
      ...reviewTest({ ears: ears(conductive, conductive) }),
      ...reviewTest({ ears: ears({ air: { 500: 55, 1000: 60, 2000: 60 }, boneMasked: { 1000: 75 } }, normal) }),
      ...reviewTest({
        ears: ears({ air: { 1000: 50 }, boneMasked: { 1000: 10 } }, { air: { 1000: 50 }, boneMasked: { 1000: 10 } }),
      }),
      ...reviewTest({
        ears: ears(
          {
            air: { 500: 40, 1000: 40, 2000: 40, 4000: 55 },
            boneMasked: { 500: 40, 1000: 40, 2000: 40, 4000: 40 },
            speech: 60,
          },
          {},
        ),
      }),
    ]
  }
})
