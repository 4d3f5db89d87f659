import type { Provenance } from '../audiometry/provenance.ts'
import { requireCount } from './counts.ts'

/** Result of one list: words (or other independent items) repeated correctly of those presented. */
export interface WordScore {
  /** Integer, 0 to `presented`. */
  readonly correct: number
  /** Items that were scored, integer, at least 1. Phonemes of one word are not independent: count words. */
  readonly presented: number
}

/** A way of computing that the screen names under "how computed". */
export interface ScoreMethod extends Provenance {
  readonly id: string
}

/**
 * @returns the same score
 * @throws RangeError unless `presented` is an integer of at least 1 and `correct` one from 0 to `presented`
 */
export function requireScore(argument: string, score: WordScore): WordScore {
  requireCount(`${argument}.presented`, score.presented, 1, 1_000_000)
  requireCount(`${argument}.correct`, score.correct, 0, score.presented)
  return score
}

/** The score as a proportion, 0 to 1. @throws RangeError as `requireScore` */
export function proportionCorrect(score: WordScore): number {
  const { correct, presented } = requireScore('score', score)
  return correct / presented
}
