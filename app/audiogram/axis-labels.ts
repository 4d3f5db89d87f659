import { type ChartFrame, type ChartRange, frequenciesIn, isOctave, xOf } from './geometry.ts'

/** Levels with a line, dB HL: every 10 dB of the range. */
export const levelsIn = ({ topDbHl, bottomDbHl }: ChartRange): readonly number[] =>
  Array.from({ length: (bottomDbHl - topDbHl) / 10 + 1 }, (_, step) => topDbHl + step * 10)

/** Where numbers are printed first when there is not room for all: the rest of the list fills what is left. */
const printedFirst: readonly number[] = [750, 1500, 3000, 6000, 10000, 12500]

/** Frequencies whose numbers fit beside one another: octaves in the upper row, the others in the lower one. */
export function labelled(frame: ChartFrame): ReadonlySet<number> {
  const octaves = frequenciesIn(frame.range).filter(isOctave)
  const between = frequenciesIn(frame.range).filter((hz) => !isOctave(hz))
  const inTurn = between.toSorted((a, b) => Number(printedFirst.includes(b)) - Number(printedFirst.includes(a)))
  return new Set([...fitting(octaves, frame, 0.33), ...fitting(inTurn, frame, 0.29)])
}

/** Takes one after the other as long as it does not touch what was taken before. */
function fitting(frequencies: readonly number[], frame: ChartFrame, halfEm: number): readonly number[] {
  const half = (hz: number) => (String(hz).length * halfEm + 0.12) * frame.textSize
  const taken: number[] = []
  for (const hz of frequencies) {
    const apart = (other: number) => Math.abs(xOf(frame, hz) - xOf(frame, other)) >= half(hz) + half(other)
    if (taken.every(apart)) taken.push(hz)
  }
  return taken
}
