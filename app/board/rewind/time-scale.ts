/** Where moments stand on a time line whose long pauses are cut short. Moments are milliseconds since 1970. */
export interface TimeScale {
  readonly fromMs: number
  readonly toMs: number
  /** middles of the pauses that are cut, 0 to 1 */
  readonly cuts: readonly number[]
  /** 0 at `fromMs`, 1 at `toMs`; moments outside stand at the ends */
  placeOf(ms: number): number
  /** The moment at a place; places outside 0 to 1 are the ends. */
  timeAt(place: number): number
}

/** Longer than this without anything is a pause: a session of hours is months away from its planning. */
const pauseMs = 30 * 60_000
/** How much of the line a pause takes. */
const cutPauseMs = 3 * 60_000

interface Stretch {
  readonly fromMs: number
  readonly toMs: number
  /** place of its beginning and its length, in milliseconds as drawn */
  readonly start: number
  readonly length: number
}

/**
 * @param moments in order of time, the first and the last of them the ends of the line
 * @throws RangeError when there is none
 */
export function timeScale(moments: readonly number[]): TimeScale {
  const [fromMs, toMs] = [moments[0], moments.at(-1)]
  if (fromMs === undefined || toMs === undefined) throw new RangeError('moments of a time line: at least one; got none')
  const stretches = stretchesOf(moments)
  const total = stretches.reduce((sum, { length }) => sum + length, 0)
  const cuts = stretches
    .filter(({ fromMs: from, toMs: to, length }) => to - from > length)
    .map(({ start, length }) => (start + length / 2) / total)
  return {
    fromMs,
    toMs,
    cuts,
    placeOf: (ms) => {
      if (total === 0 || ms <= fromMs) return 0
      const stretch = stretches.find((each) => ms <= each.toMs)
      if (stretch === undefined) return 1
      const part = (ms - stretch.fromMs) / (stretch.toMs - stretch.fromMs)
      return (stretch.start + part * stretch.length) / total
    },
    timeAt: (place) => {
      const drawn = Math.min(Math.max(place, 0), 1) * total
      const stretch = stretches.find(({ start, length }) => drawn <= start + length)
      if (stretch === undefined || total === 0) return toMs
      return Math.round(stretch.fromMs + ((drawn - stretch.start) / stretch.length) * (stretch.toMs - stretch.fromMs))
    },
  }
}

function stretchesOf(moments: readonly number[]): Stretch[] {
  const stretches: Stretch[] = []
  let start = 0
  for (const [index, toMs] of moments.entries()) {
    const fromMs = moments[index - 1]
    if (fromMs === undefined || toMs === fromMs) continue
    const length = toMs - fromMs > pauseMs ? cutPauseMs : toMs - fromMs
    stretches.push({ fromMs, toMs, start, length })
    start += length
  }
  return stretches
}
