import type { Ear } from '@/lib/units/frequencies.ts'
import type { ChartRange } from './geometry.ts'
import { type ChartLayer, levelOf } from './layers.ts'

export type StampState = 'superseded' | 'entered-in-error'

export interface Stamps {
  /** What is on the chart is not current at all: hatch the whole plot. */
  readonly whole?: StampState
  /** Current and other tests stand together: name the ears that are not current. */
  readonly partly: readonly { readonly ear: Ear; readonly state: StampState }[]
}

/** What the chart has to say about tests that are not current. The graver state wins when two apply. */
export function stampsFor(layers: readonly ChartLayer[]): Stamps {
  const counted = layers.filter(({ style }) => style !== 'faint')
  const closed = counted.flatMap(({ ear, style }) =>
    style === 'superseded' || style === 'entered-in-error' ? [{ ear, state: style }] : [],
  )
  if (closed.length === 0) return { partly: [] }
  if (closed.length < counted.length) return { partly: unique(closed) }
  const error = closed.some(({ state }) => state === 'entered-in-error')
  const states = new Set(closed.map(({ state }) => state))
  return { whole: error ? 'entered-in-error' : 'superseded', partly: states.size > 1 ? unique(closed) : [] }
}

function unique(stamps: readonly { ear: Ear; state: StampState }[]): { ear: Ear; state: StampState }[] {
  return [...new Map(stamps.map((stamp) => [`${stamp.ear}.${stamp.state}`, stamp])).values()]
}

/** How far down the plot (0 to 1) a large word hides the fewest signs. */
export function quietestHeight(layers: readonly ChartLayer[], { topDbHl, bottomDbHl }: ChartRange): number {
  const heights = layers
    .flatMap(({ marks }) => marks.map(({ point }) => levelOf(point)))
    .flatMap((level) => (level === undefined ? [] : [(level - topDbHl) / (bottomDbHl - topDbHl)]))
  const hidden = (across: number) => heights.filter((height) => Math.abs(height - across) < 0.11).length
  return [0.5, 0.85, 0.15, 0.68, 0.32].reduce((best, across) => (hidden(across) < hidden(best) ? across : best))
}
