import { mostDelayMs } from './records/video-delay.ts'
import { spreadOf } from './spread.ts'

/**
 * The sync mark on the main screen, and what a person's presses at it say about their video delay. The mark follows
 * from the server's time alone, so that nothing has to be sent for it: every page knows which number stood when.
 */
export const markEveryMs = 4000
/** Numbers 1 to 25: one comes again after 100 s, later than any delay that is taken. */
export const markCount = 25
const roundMs = markEveryMs * markCount
/** How much before its change a number may be pressed and is still told as too early: the rest of a round is too late. */
const earlyMs = 5000
/** Presses that one measurement takes. */
export const pressCount = 3
/** Presses further apart than this, in ms, say little: the person is told to measure again. */
export const unsteadyMs = 2000

/** The number of the mark, 1 to 25. @param serverMs the server's clock, milliseconds since 1970 */
export const markAt = (serverMs: number): number =>
  1 + (Math.floor(finite('serverMs', serverMs) / markEveryMs) % markCount)

/** Milliseconds until the mark changes, above 0 and at most 4000. */
export const msToNextMark = (serverMs: number): number => markEveryMs - (finite('serverMs', serverMs) % markEveryMs)

export interface Press {
  /** when the person saw the mark change, by the server's clock, milliseconds since 1970 */
  readonly pressedAtMs: number
  /** the number that it changed to */
  readonly mark: number
}

export type JudgedPress =
  | { readonly ok: true; readonly delayMs: number }
  | { readonly ok: false; readonly why: 'no-such-mark' | 'before-the-change' | 'longer-than-any-delay' }

/**
 * How late the mark was seen: from its last change to this number until the press. A press up to 5 s before the next
 * change to it is before the change, and never a delay; above 90 s is longer than any video link that is used.
 * @throws RangeError when the time is not a finite number above 0
 */
export function judgePress({ pressedAtMs, mark }: Press): JudgedPress {
  if (finite('pressedAtMs', pressedAtMs) <= 0) throw new RangeError(`pressedAtMs is above 0; got ${pressedAtMs}`)
  if (!Number.isInteger(mark) || mark < 1 || mark > markCount) return { ok: false, why: 'no-such-mark' }
  const sinceChange = (((pressedAtMs - (mark - 1) * markEveryMs) % roundMs) + roundMs) % roundMs
  if (sinceChange > roundMs - earlyMs) return { ok: false, why: 'before-the-change' }
  if (sinceChange > mostDelayMs) return { ok: false, why: 'longer-than-any-delay' }
  return { ok: true, delayMs: sinceChange }
}

export interface DelaySummary {
  readonly medianMs: number
  readonly lowMs: number
  readonly highMs: number
}

/**
 * Median and range of the delays of one measurement.
 * @param delaysMs at least one; each 0 to 90 000
 * @throws RangeError outside that
 */
export function summariseDelays(delaysMs: readonly number[]): DelaySummary {
  const spread = spreadOf(delaysMs.map(inRange))
  if (spread === undefined) throw new RangeError('delaysMs holds at least one delay; got none')
  return { medianMs: spread.median, lowMs: spread.low, highMs: spread.high }
}

export const isUnsteady = ({ lowMs, highMs }: DelaySummary): boolean => highMs - lowMs > unsteadyMs

function inRange(delay: number): number {
  if (delay >= 0 && delay <= mostDelayMs) return delay
  throw new RangeError(`a delay is 0 to ${mostDelayMs} ms; got ${delay}`)
}

function finite(name: string, value: number): number {
  if (Number.isFinite(value)) return value
  throw new RangeError(`${name} is a finite number; got ${value}`)
}
