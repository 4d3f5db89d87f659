import type { FrequencyHz } from '../units/frequencies.ts'
import { averageBounds, pureToneAverage } from './averages.ts'
import { type Bounds, both, boundsOf, type Decided, difference, either, isAbove, isAtLeast } from './bounds.ts'
import { requireAudiogram, requireWithin } from './domain.ts'
import type { BeforeAndAfter } from './pairs.ts'
import type { Provenance } from './provenance.ts'
import type { Audiogram } from './thresholds.ts'

export type ChangeCriterionId = 'three-two-one' | 'asha-1994' | 'aao-change'

export interface ChangeCriterion extends Provenance {
  readonly id: ChangeCriterionId
  /** The frequencies that count. "Adjacent" and "consecutive" are meant among those that either test has. */
  readonly frequencies: readonly FrequencyHz[]
}

const conventional: readonly FrequencyHz[] = [250, 500, 1000, 2000, 3000, 4000, 6000, 8000]

export const changeCriteria: { readonly [Id in ChangeCriterionId]: ChangeCriterion & { readonly id: Id } } = {
  'three-two-one': {
    id: 'three-two-one',
    frequencies: conventional,
    source:
      'J Speech Lang Hear Res 60:1076-1087, 2017, Table 1: 10 dB at three, 15 dB at two or 20 dB at one frequency',
    status: 'confirmed',
  },
  'asha-1994': {
    id: 'asha-1994',
    frequencies: conventional,
    source:
      'ASHA 1994, ototoxicity monitoring: 20 dB at one, 10 dB at two adjacent, or loss of response at three consecutive frequencies',
    status: 'from memory, unconfirmed',
  },
  'aao-change': {
    id: 'aao-change',
    frequencies: [500, 1000, 2000, 3000],
    source: 'AAO-HNS 1995: more than 10 dB in the four-tone average or more than 15 points in word score',
    status: 'from memory, unconfirmed',
  },
}

/**
 * Smallest change of a monosyllable score that patients notice, in percentage points: distribution-based, from
 * cochlear-implant recipients, not from bone-conduction or middle-ear implants.
 * Source: Patro et al. 2024. Status: confirmed.
 */
export const monosyllableMcidPoints = 7.4

export interface ChangeInput {
  readonly audiograms: BeforeAndAfter<Audiogram>
  /** Percent correct, 0 to 100. */
  readonly wordScores?: BeforeAndAfter<number>
}

export interface ChangeResult {
  readonly criterion: ChangeCriterion
  /** undefined: not evaluable, because something is missing or without response. */
  readonly worse: Decided
  readonly better: Decided
  readonly missing: readonly FrequencyHz[]
}

/**
 * Whether an ear changed by one criterion, in either direction. What is met is met although frequencies are missing;
 * "not met" needs all that one of the tests has. ASHA 1994 defines worsening only, so `better` stays undefined there.
 * @throws RangeError when an audiogram is out of domain or a word score is not from 0 to 100 %
 * Checked by: tests/published/change-criteria.test.ts
 */
export function changeBy({ audiograms, wordScores }: ChangeInput, id: ChangeCriterionId): ChangeResult {
  const { before, after } = audiograms
  requireAudiogram('audiograms.before', before)
  requireAudiogram('audiograms.after', after)
  const criterion = changeCriteria[id]
  const counted = id === 'aao-change' ? criterion.frequencies : testedOf(criterion.frequencies, audiograms)
  const worsening = counted.map((frequency) => changeAt(before, after, frequency))
  const improving = counted.map((frequency) => changeAt(after, before, frequency))
  const missing = counted.filter((_, index) => worsening[index] === undefined)
  switch (id) {
    case 'three-two-one':
      return { criterion, worse: threeTwoOne(worsening), better: threeTwoOne(improving), missing }
    case 'asha-1994':
      return { criterion, worse: asha1994(worsening, audiograms, counted), better: undefined, missing }
    case 'aao-change':
      return { criterion, ...aaoChange(audiograms, wordScores), missing }
    default:
      return id satisfies never
  }
}

function testedOf(list: readonly FrequencyHz[], { before, after }: BeforeAndAfter<Audiogram>): readonly FrequencyHz[] {
  return list.filter((frequency) => before.has(frequency) || after.has(frequency))
}

/** How much higher the level in `to` is than in `from`, in dB. */
function changeAt(from: Audiogram, to: Audiogram, frequency: FrequencyHz): Bounds | undefined {
  const earlier = boundsOf(from.get(frequency))
  const later = boundsOf(to.get(frequency))
  return earlier && later && difference(later, earlier)
}

type Changes = readonly (Bounds | undefined)[]

const reach = (changes: Changes, limit: number): readonly Decided[] =>
  changes.map((change) => change && isAtLeast(change, limit))

function threeTwoOne(changes: Changes): Decided {
  return either(
    atLeastSo(3, reach(changes, 10)),
    either(atLeastSo(2, reach(changes, 15)), atLeastSo(1, reach(changes, 20))),
  )
}

/** Whether at least `count` of the answers are true, when some of them are not known; nothing is known of no answers. */
function atLeastSo(count: number, answers: readonly Decided[]): Decided {
  if (answers.length === 0) return undefined
  if (answers.filter((answer) => answer === true).length >= count) return true
  return answers.filter((answer) => answer !== false).length >= count ? undefined : false
}

function asha1994(
  changes: Changes,
  { before, after }: BeforeAndAfter<Audiogram>,
  list: readonly FrequencyHz[],
): Decided {
  const adjacent = inARow(2, reach(changes, 10))
  const lost = inARow(
    3,
    list.map((frequency) => lostResponse(before, after, frequency)),
  )
  return either(atLeastSo(1, reach(changes, 20)), either(adjacent, lost))
}

function inARow(count: number, answers: readonly Decided[]): Decided {
  const runs = answers.slice(count - 1).map((_, start) => answers.slice(start, start + count).reduce(both))
  return runs.reduce(either, false)
}

function lostResponse(before: Audiogram, after: Audiogram, frequency: FrequencyHz): Decided {
  const earlier = before.get(frequency)
  const later = after.get(frequency)
  if (boundsOf(earlier) === undefined || boundsOf(later) === undefined) return undefined
  return earlier?.kind === 'heard' && later?.kind === 'no-response'
}

function aaoChange(
  audiograms: BeforeAndAfter<Audiogram>,
  wordScores: BeforeAndAfter<number> | undefined,
): Pick<ChangeResult, 'worse' | 'better'> {
  const before = averageBounds(pureToneAverage(audiograms.before, 'pta4-aao'))
  const after = averageBounds(pureToneAverage(audiograms.after, 'pta4-aao'))
  const lost = wordScores && pointsLost(wordScores)
  return {
    worse: either(
      before && after && isAbove(difference(after, before), 10),
      lost === undefined ? undefined : lost > 15,
    ),
    better: either(
      before && after && isAbove(difference(before, after), 10),
      lost === undefined ? undefined : lost < -15,
    ),
  }
}

function pointsLost({ before, after }: BeforeAndAfter<number>): number {
  return requireWithin('wordScores.before', before, 0, 100, '%') - requireWithin('wordScores.after', after, 0, 100, '%')
}
