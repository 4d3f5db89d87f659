import type { Bounds } from '../audiometry/bounds.ts'
import type { WordScore } from '../speech/word-score.ts'
import type { FrequencyHz } from '../units/frequencies.ts'

export type Verdict = 'met' | 'not-met' | 'cannot-tell'

/** What every judgement says. */
interface Judgement {
  readonly kind: 'judged'
  readonly verdict: Verdict
  /**
   * that the true value lies beyond the limit, or that the true score has fallen; a range where "no response" leaves more
   * than one answer
   */
  readonly probability: { readonly low: number; readonly high: number }
}

/** A mean of levels, or a change of it, held against a limit in dB. */
export interface JudgedLevels extends Judgement {
  readonly of: 'levels'
  readonly value: Bounds
  /** against what; absent for a limit */
  readonly reference?: { readonly value: Bounds; readonly visit?: string }
  /** dB in the direction of the trigger: a fall of 12 dB is 12 for "falls by", -12 for "rises by"; beyond a limit is positive */
  readonly changeDb: Bounds
  /** test-retest standard deviation of what is held against the limit, dB */
  readonly sdDb: number
  /** those that the means stand on, Hz */
  readonly frequencies: readonly FrequencyHz[]
}

/** A word score held against an earlier one. */
export interface JudgedWords extends Judgement {
  readonly of: 'words'
  readonly score: WordScore
  readonly reference: { readonly score: WordScore; readonly visit?: string }
  /** fewest words right of this list that chance still explains */
  readonly leastByChance: number
}

export type Judged = JudgedLevels | JudgedWords

/** Why a visit says nothing about a trigger; `missing` are the frequencies that were not measured. */
export interface NotJudged {
  readonly kind: 'absent'
  readonly reason: 'not-measured' | 'no-reference'
  readonly missing: readonly FrequencyHz[]
}

export type Watched = Judged | NotJudged

export interface VisitVerdict {
  readonly visit: string
  readonly watched: Watched
}

/** The verdict that counts now: of the latest visit that says anything. */
export const latestVerdict = (
  over: readonly VisitVerdict[],
): (Omit<VisitVerdict, 'watched'> & { readonly watched: Judged }) | undefined =>
  over.findLast((at): at is typeof at & { watched: Judged } => at.watched.kind === 'judged')
