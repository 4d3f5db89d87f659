import { audiometricFrequenciesHz, type FrequencyHz } from '@/lib/units/frequencies.ts'

/** What the chart covers. Source of the default: ISO 8253-1 / ASHA 1990, 125 Hz to 8 kHz, -10 to 120 dB HL. */
export interface ChartRange {
  readonly highHz: 8000 | 16000
  readonly topDbHl: number
  readonly bottomDbHl: number
}

export const standardRange: ChartRange = { highHz: 8000, topDbHl: -10, bottomDbHl: 120 }

/** dB HL whose height on the chart equals the width of one octave. Source: ANSI S3.6 / ISO 8253-1. */
export const dbPerOctave = 20

/** The range that shows all points: the axis grows by whole 10 dB steps beyond the standard one, never shrinks. */
export function rangeFor(
  points: Iterable<{ readonly frequency: number; readonly level: number | undefined }>,
  extended: boolean,
): ChartRange {
  let { highHz, topDbHl, bottomDbHl }: ChartRange = extended ? { ...standardRange, highHz: 16000 } : standardRange
  for (const { frequency, level } of points) {
    if (frequency > 8000) highHz = 16000
    if (level === undefined) continue
    topDbHl = Math.min(topDbHl, Math.floor(level / 10) * 10)
    bottomDbHl = Math.max(bottomDbHl, Math.ceil(level / 10) * 10)
  }
  return { highHz, topDbHl, bottomDbHl }
}

/** Lengths of the chart in pixels of its own coordinate system. */
export interface ChartFrame {
  readonly range: ChartRange
  readonly width: number
  readonly height: number
  readonly octave: number
  readonly textSize: number
  readonly plot: { readonly left: number; readonly top: number; readonly width: number; readonly height: number }
}

export interface ChartSpace {
  readonly width: number
  /** Absent: as high as the width asks for. */
  readonly height?: number | undefined
}

/** Free space beside 125 Hz and beside the highest frequency, in octaves: room for bone-conduction signs. */
const sideOctaves = 0.4
const margin = { left: 2.5, right: 0.5, top: 2.9, bottom: 0.7 } as const

/**
 * Lays the chart out so that one octave is as long as 20 dB.
 * @param space pixels available; with a height the chart fits inside both
 * @param textSize height of the axis text in the same pixels
 * @param laneHeight pixels kept free under the plot for "could not test" marks and band brackets
 */
export function frameFor(space: ChartSpace, range: ChartRange, textSize: number, laneHeight = 0): ChartFrame {
  const octaves = octavesTo(range.highHz) + 2 * sideOctaves
  const octavesDown = (range.bottomDbHl - range.topDbHl) / dbPerOctave
  const aside = (margin.left + margin.right) * textSize
  const above = (margin.top + margin.bottom) * textSize + laneHeight
  const byWidth = (space.width - aside) / octaves
  const byHeight = space.height === undefined ? byWidth : (space.height - above) / octavesDown
  const octave = Math.max(1, Math.min(byWidth, byHeight))
  const plot = {
    left: margin.left * textSize,
    top: margin.top * textSize,
    width: octave * octaves,
    height: octave * octavesDown,
  }
  return { range, octave, textSize, plot, width: plot.width + aside, height: plot.height + above }
}

const octavesTo = (hz: number) => Math.log2(hz / 125)

export const xOf = (frame: ChartFrame, hz: number): number =>
  frame.plot.left + (octavesTo(hz) + sideOctaves) * frame.octave

export const yOf = (frame: ChartFrame, dbHl: number): number =>
  frame.plot.top + ((dbHl - frame.range.topDbHl) / dbPerOctave) * frame.octave

export const hzAt = (frame: ChartFrame, x: number): number =>
  125 * 2 ** ((x - frame.plot.left) / frame.octave - sideOctaves)

export const dbHlAt = (frame: ChartFrame, y: number): number =>
  frame.range.topDbHl + ((y - frame.plot.top) / frame.octave) * dbPerOctave

/**
 * Radius of the signs: grows with the chart, so that 5 dB steps stay apart, and is never too small for the distance from
 * which the axis text is read.
 */
export const symbolRadius = ({ octave, textSize }: ChartFrame): number =>
  Math.max(4.5, 4.5 + (textSize - 13) / 2, Math.min(octave * 0.115, 26))

export const frequenciesIn = ({ highHz }: ChartRange): readonly FrequencyHz[] =>
  audiometricFrequenciesHz.filter((frequency) => frequency <= highHz)

/** Octaves of 125 Hz; the audiometric frequencies between them are drawn with dashed lines. */
export const isOctave = (hz: number): boolean => Number.isInteger(octavesTo(hz))

/** The frequency of the list that is nearest in octaves. */
export function nearestFrequency(hz: number, choices: readonly FrequencyHz[]): FrequencyHz {
  const apart = (frequency: number) => Math.abs(Math.log2(hz / frequency))
  return choices.reduce((best, frequency) => (apart(frequency) < apart(best) ? frequency : best))
}

/** The nearest 5 dB step inside the range of the chart. */
export function nearestStep(dbHl: number, { topDbHl, bottomDbHl }: ChartRange): number {
  const step = Math.round(dbHl / 5) * 5
  return Math.max(topDbHl, Math.min(bottomDbHl, step)) + 0 // no negative zero
}

export const isOffGrid = (dbHl: number): boolean => dbHl % 5 !== 0
