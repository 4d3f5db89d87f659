import type { Ear } from '@/lib/units/frequencies.ts'
import { type ChartFrame, symbolRadius, xOf, yOf } from './geometry.ts'
import type { ChartLine } from './layers.ts'
import { type SymbolChoice, symbolFor } from './symbols.ts'

/** SVG path of the pieces between neighbouring signs, cut short so that they end at the sign and do not run through it. */
export function linePath(line: ChartLine, ear: Ear, frame: ChartFrame): string {
  const room = symbolRadius(frame) * 1.25
  const ends = line.places.map((place) => {
    const choice = symbolFor({ ear, route: line.route, masked: place.masked, noResponse: false })
    return spotOf(place.frequency, place.level, choice, frame)
  })
  const pieces = ends.slice(1).flatMap((to, index) => {
    const from = ends[index]
    return from === undefined ? [] : [shortened(from, to, room)]
  })
  return pieces.join('')
}

export interface Spot {
  readonly x: number
  readonly y: number
}

const sideways = ({ side }: SymbolChoice) => (side === 'on-line' ? 0 : side === 'left' ? -1 : 1)

/** Where a sign stands: beside its frequency line, if it belongs there. */
export const spotOf = (frequency: number, level: number, choice: SymbolChoice, frame: ChartFrame): Spot => ({
  x: xOf(frame, frequency) + sideways(choice) * choice.offset * symbolRadius(frame),
  y: yOf(frame, level),
})

function shortened(from: Spot, to: Spot, room: number): string {
  const length = Math.hypot(to.x - from.x, to.y - from.y)
  if (length <= 2 * room) return ''
  const dx = ((to.x - from.x) / length) * room
  const dy = ((to.y - from.y) / length) * room
  return `M${from.x + dx} ${from.y + dy}L${to.x - dx} ${to.y - dy}`
}
