import { type Ear, type FrequencyHz, otherEar } from '../units/frequencies.ts'
import { type AverageId, averageBounds, pureToneAverage } from './averages.ts'
import { type Bounds, both, boundsOf, type Decided, difference, either, isAbove, isAtLeast } from './bounds.ts'
import { requireWithin } from './domain.ts'
import type { BothEars } from './pairs.ts'
import type { Provenance } from './provenance.ts'
import type { Audiogram } from './thresholds.ts'

export type AsymmetryRuleId = 'rule-3000' | 'cns' | 'aao15' | 'ng98' | 'uk20'

/** One way to be asymmetric; a rule is met when any of its criteria is. Differences in dB, poorer minus better ear. */
export type AsymmetryCriterion =
  | { readonly kind: 'any-one'; readonly atLeast: number }
  | { readonly kind: 'two-adjacent'; readonly atLeast: number }
  | { readonly kind: 'average'; readonly average: AverageId; readonly above: number }
  | { readonly kind: 'word-score'; readonly abovePoints: number }

export interface AsymmetryRule extends Provenance {
  readonly id: AsymmetryRuleId
  /** The list on which "one" and "adjacent" are defined, whatever else was tested. */
  readonly frequencies: readonly FrequencyHz[]
  readonly criteria: readonly AsymmetryCriterion[]
}

export const asymmetryRules: { readonly [Id in AsymmetryRuleId]: AsymmetryRule & { readonly id: Id } } = {
  'rule-3000': {
    id: 'rule-3000',
    frequencies: [3000],
    criteria: [{ kind: 'any-one', atLeast: 15 }],
    source: 'Saliba et al., Otol Neurotol 30:515-521, 2009',
    status: 'confirmed',
  },
  cns: {
    id: 'cns',
    frequencies: [250, 500, 1000, 2000, 3000, 4000, 6000, 8000],
    criteria: [
      { kind: 'two-adjacent', atLeast: 10 },
      { kind: 'any-one', atLeast: 15 },
    ],
    source: 'Congress of Neurological Surgeons, vestibular schwannoma guideline, 2018',
    status: 'confirmed',
    reservation: 'seen in a secondary text, which gives no frequency list; the list is a choice of this board',
  },
  aao15: {
    id: 'aao15',
    frequencies: [500, 1000, 2000],
    criteria: [
      { kind: 'average', average: 'pta3', above: 15 },
      { kind: 'word-score', abovePoints: 15 },
    ],
    source: 'AAO-HNS, asymmetric hearing loss',
    status: 'confirmed',
    reservation: 'seen in a secondary text',
  },
  ng98: {
    id: 'ng98',
    frequencies: [500, 1000, 2000, 4000, 8000],
    criteria: [{ kind: 'two-adjacent', atLeast: 15 }],
    source: 'NICE guideline NG98, 2018',
    status: 'confirmed',
    reservation: 'seen word for word in a secondary text',
  },
  uk20: {
    id: 'uk20',
    frequencies: [500, 1000, 2000, 4000, 8000],
    criteria: [{ kind: 'two-adjacent', atLeast: 20 }],
    source: 'UK Department of Health, 2002',
    status: 'from memory, unconfirmed',
  },
}

export interface AsymmetryInput {
  readonly audiograms: BothEars<Audiogram>
  /** Percent correct, 0 to 100. */
  readonly wordScores?: BothEars<number>
}

export interface AsymmetryResult {
  readonly rule: AsymmetryRule
  readonly outcome: 'asymmetric' | 'not asymmetric' | 'not evaluable'
  /** The ear that is poorer by the criteria that were met; absent unless asymmetric, and when both ears are. */
  readonly poorerEar?: Ear
  readonly missing: readonly FrequencyHz[]
  readonly wordScoresMissing: boolean
}

/**
 * Whether the ears differ by one rule. What is met is met although other frequencies are missing; "not asymmetric"
 * needs all of them, and anything else is "not evaluable".
 * @throws RangeError when an audiogram is out of domain or a word score is not from 0 to 100 %
 * Sources: `asymmetryRules`. Checked by: tests/published/asymmetry-rules.test.ts
 */
export function asymmetry(input: AsymmetryInput, id: AsymmetryRuleId): AsymmetryResult {
  const rule = asymmetryRules[id]
  requireWordScores(input.wordScores)
  const poorer = { right: isPoorer(input, 'right', rule), left: isPoorer(input, 'left', rule) }
  const needsWords = rule.criteria.some((criterion) => criterion.kind === 'word-score')
  return {
    rule,
    outcome: outcomeOf(either(poorer.right, poorer.left)),
    ...poorerEar(poorer),
    missing: rule.frequencies.filter((frequency) => differenceAt(input, 'right', frequency) === undefined),
    wordScoresMissing: needsWords && input.wordScores === undefined,
  }
}

function requireWordScores(scores: BothEars<number> | undefined): void {
  if (scores === undefined) return
  requireWithin('wordScores.right', scores.right, 0, 100, '%')
  requireWithin('wordScores.left', scores.left, 0, 100, '%')
}

function poorerEar({ right, left }: BothEars<Decided>): { poorerEar?: Ear } {
  if (right === true && left !== true) return { poorerEar: 'right' }
  if (left === true && right !== true) return { poorerEar: 'left' }
  return {}
}

function outcomeOf(met: Decided): AsymmetryResult['outcome'] {
  if (met === undefined) return 'not evaluable'
  return met ? 'asymmetric' : 'not asymmetric'
}

function isPoorer(input: AsymmetryInput, ear: Ear, rule: AsymmetryRule): Decided {
  return rule.criteria.map((criterion) => meets(input, ear, rule, criterion)).reduce(either)
}

function meets(input: AsymmetryInput, ear: Ear, rule: AsymmetryRule, criterion: AsymmetryCriterion): Decided {
  switch (criterion.kind) {
    case 'any-one':
      return differences(input, ear, rule)
        .map((by) => decide(by, (known) => isAtLeast(known, criterion.atLeast)))
        .reduce(either, false)
    case 'two-adjacent':
      return neighboursReach(differences(input, ear, rule), criterion.atLeast).reduce(either, false)
    case 'average':
      return decide(averageDifference(input, ear, criterion.average), (by) => isAbove(by, criterion.above))
    case 'word-score':
      return input.wordScores && input.wordScores[otherEar(ear)] - input.wordScores[ear] > criterion.abovePoints
    default:
      return criterion satisfies never
  }
}

const differences = (
  input: AsymmetryInput,
  ear: Ear,
  { frequencies }: AsymmetryRule,
): readonly (Bounds | undefined)[] => frequencies.map((frequency) => differenceAt(input, ear, frequency))

const decide = (by: Bounds | undefined, test: (by: Bounds) => Decided): Decided => by && test(by)

/** A pair with an untested frequency is not evaluable, even when the tested one alone would rule it out. */
function neighboursReach(list: readonly (Bounds | undefined)[], limit: number): readonly Decided[] {
  return list.slice(1).map((next, index) => {
    const here = list[index]
    return here && next && both(isAtLeast(here, limit), isAtLeast(next, limit))
  })
}

/** How much poorer `ear` is than the other at one frequency, in dB. */
function differenceAt({ audiograms }: AsymmetryInput, ear: Ear, frequency: FrequencyHz): Bounds | undefined {
  const own = boundsOf(audiograms[ear].get(frequency))
  const other = boundsOf(audiograms[otherEar(ear)].get(frequency))
  return own && other && difference(own, other)
}

function averageDifference({ audiograms }: AsymmetryInput, ear: Ear, average: AverageId): Bounds | undefined {
  const own = averageBounds(pureToneAverage(audiograms[ear], average))
  const other = averageBounds(pureToneAverage(audiograms[otherEar(ear)], average))
  return own && other && difference(own, other)
}
