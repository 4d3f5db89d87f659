import type { Annotation, ChartPlace } from '@/lib/board/records/annotation.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { type ChartFrame, xOf } from './geometry.ts'
import { packLanes } from './lanes.ts'

/** A pin or bracket as the chart draws it; its number is the one it has in the list beside the chart. */
export interface ChartNote {
  readonly id: string
  readonly number: number
  readonly place: ChartPlace
  readonly text: string
  readonly selected?: boolean
}

/** A question of the floor that points at a place on the chart. */
export interface ChartAnchor {
  readonly id: string
  readonly number: number
  readonly place: ChartPlace
}

/** Where somebody else points. */
export interface SharedPointer {
  readonly id: string
  readonly name: string
  readonly ear: Ear
  readonly frequencyHz: number
  readonly levelDbHl: number
}

type BandPlace = Extract<ChartPlace, { kind: 'band' }>

export interface Bracket {
  readonly id: string
  readonly kind: 'note' | 'question'
  readonly place: BandPlace
  readonly text: string
  /** ear, number and the beginning of the text; the whole text stands in the list */
  readonly label: string
  readonly textFrom: number
  readonly lane: number
  readonly selected: boolean
}

interface BracketWords {
  readonly earLetters: Readonly<Record<Ear, string>>
  question(number: number): string
}

const labelLetters = 44

/** All brackets of notes and questions, in lanes under the plot where neither they nor their texts overlap. */
export function bracketsOf(
  notes: readonly ChartNote[],
  anchors: readonly ChartAnchor[],
  frame: ChartFrame,
  words: BracketWords,
): Bracket[] {
  const bands = [
    ...notes.flatMap((note) => bandOf('note', note, String(note.number), note.text, note.selected ?? false)),
    ...anchors.flatMap((anchor) => bandOf('question', anchor, words.question(anchor.number), '', false)),
  ].map((band) => labelled(band, frame, words))
  const lanes = packLanes(bands.map(({ extent }) => extent))
  return bands.map(({ extent: _, ...bracket }, index) => ({ ...bracket, lane: lanes[index] ?? 0 }))
}

type Band = Omit<Bracket, 'label' | 'textFrom' | 'lane'> & { readonly sign: string }

function bandOf(
  kind: Bracket['kind'],
  { id, place }: Pick<ChartNote, 'id' | 'place'>,
  sign: string,
  text: string,
  selected: boolean,
): Band[] {
  return place.kind === 'band' ? [{ id, kind, place, sign, text, selected }] : []
}

/** The text begins at its bracket, or as far before it as the right edge of the plot asks for. */
function labelled({ sign, ...band }: Band, frame: ChartFrame, { earLetters }: BracketWords) {
  const { plot, textSize } = frame
  const label = shortened(`${earLetters[band.place.ear]} ${sign} ${band.text}`.trim())
  const width = label.length * textSize * 0.52
  const [from, to] = [xOf(frame, band.place.from), xOf(frame, band.place.to)]
  const textFrom = Math.max(plot.left, Math.min(from, plot.left + plot.width - width))
  const extent = { from: Math.min(from, textFrom), to: Math.max(to, textFrom + width) }
  return { ...band, label, textFrom, extent }
}

const shortened = (text: string): string =>
  text.length <= labelLetters ? text : `${text.slice(0, labelLetters - 1).trimEnd()}…`

/** Annotations with the numbers they have on every screen: in the order in which they were made. */
export function numbered(annotations: readonly Annotation[]): readonly { annotation: Annotation; number: number }[] {
  return [...annotations]
    .sort((a, b) => (a.at < b.at || (a.at === b.at && a.id < b.id) ? -1 : 1))
    .map((annotation, index) => ({ annotation, number: index + 1 }))
}
