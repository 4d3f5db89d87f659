// rule-3000: Saliba et al. 2009; cns: Congress of Neurological Surgeons 2018; aao15: AAO-HNS; ng98: NICE 2018;
// uk20: UK Department of Health 2002 (from memory, unconfirmed). Each just below and at its limit.
import { it } from 'vitest'
import { type AsymmetryRuleId, asymmetry, asymmetryRules } from '../../lib/audiometry/asymmetry.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const frequencies = [250, 500, 1000, 2000, 3000, 4000, 6000, 8000]
const ear = (raised: Readonly<Record<number, number>>) =>
  audiogram(Object.fromEntries(frequencies.map((frequency) => [frequency, 20 + (raised[frequency] ?? 0)])))

const rows: readonly (readonly [AsymmetryRuleId, Readonly<Record<number, number>>, boolean])[] = [
  ['rule-3000', { 3000: 14 }, false],
  ['rule-3000', { 3000: 15 }, true],
  ['cns', { 1000: 10, 3000: 10 }, false],
  ['cns', { 1000: 10, 2000: 10 }, true],
  ['cns', { 8000: 15 }, true],
  ['aao15', { 500: 15, 1000: 15, 2000: 15 }, false],
  ['aao15', { 500: 15, 1000: 15, 2000: 16 }, true],
  ['ng98', { 1000: 15, 3000: 15 }, false],
  ['ng98', { 2000: 15, 4000: 15 }, true],
  ['uk20', { 4000: 20, 8000: 19 }, false],
  ['uk20', { 4000: 20, 8000: 20 }, true],
]

it('each rule at its limit', () => {
  for (const [id, raised, asymmetric] of rows) {
    const input = { audiograms: { right: ear(raised), left: ear({}) }, wordScores: { right: 80, left: 95 } }
    checkValue({
      source: `Asymmetry, ${asymmetryRules[id].source}`,
      what: `${id} with ${JSON.stringify(raised)}`,
      expected: asymmetric ? 'asymmetric' : 'not asymmetric',
      actual: asymmetry(input, id).outcome,
      tolerance: 0,
      why: 'a decision',
    })
  }
})
