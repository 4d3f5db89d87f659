import { useMessages } from '@/app/messages/use-messages.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import styles from './chart-notes.module.css'
import { type ChartFrame, symbolRadius, xOf, yOf } from './geometry.ts'
import type { Bracket, ChartAnchor, ChartNote } from './notes.ts'

/** A numbered flag on a staff that stands on its place, so that the sign below stays readable. */
export function Pin({ note, frame }: { note: ChartNote; frame: ChartFrame }) {
  if (note.place.kind !== 'pin') return null
  const { textSize } = frame
  const { ear, frequency, level } = note.place
  const outward = ear === 'right' ? -1 : 1
  const size = Math.max(textSize * 1.5, 18)
  const staff = symbolRadius(frame) * 1.4 + size / 2
  return (
    <g
      className={styles.note}
      data-ear={ear}
      data-note={note.id}
      data-selected={note.selected}
      transform={`translate(${xOf(frame, frequency)} ${yOf(frame, level)})`}
    >
      <title>{note.text}</title>
      <path className={styles.staff} d={`M0 0L${outward * staff} ${-staff}`} />
      <circle className={styles.foot} r={Math.max(2.5, textSize * 0.2)} />
      <rect
        className={styles.flag}
        x={outward * staff - size / 2}
        y={-staff - size / 2}
        width={size}
        height={size}
        rx={size / 2}
      />
      <text x={outward * staff} y={-staff + textSize * 0.36} fontSize={textSize} textAnchor="middle">
        {note.number}
      </text>
    </g>
  )
}

/** The number of a question beside the place it points at. */
export function QuestionMark({ anchor, frame }: { anchor: ChartAnchor; frame: ChartFrame }) {
  const { audiogram } = useMessages()
  if (anchor.place.kind !== 'pin') return null
  const { textSize } = frame
  const label = audiogram.question(anchor.number)
  const width = (label.length * 0.62 + 0.6) * textSize
  const outward = anchor.place.ear === 'right' ? -1 : 1
  const reach = symbolRadius(frame) * 1.8
  const aside = outward * (reach + width / 2)
  return (
    <g
      className={styles.question}
      data-question={anchor.id}
      transform={`translate(${xOf(frame, anchor.place.frequency)} ${yOf(frame, anchor.place.level)})`}
    >
      <path className={styles.staff} d={`M0 0L${aside} ${reach}`} />
      <rect
        className={styles.flag}
        x={aside - width / 2}
        y={reach - textSize * 0.7}
        width={width}
        height={textSize * 1.4}
      />
      <text x={aside} y={reach + textSize * 0.36} fontSize={textSize} textAnchor="middle">
        {label}
      </text>
    </g>
  )
}

/** A frequency band: a faint column in the plot and a bracket with its number and text under it. */
export function BandBracket({ bracket, top, frame }: { bracket: Bracket; top: number; frame: ChartFrame }) {
  const { plot, textSize } = frame
  const { from, to, ear } = bracket.place
  const left = xOf(frame, from)
  const width = xOf(frame, to) - left
  return (
    <g
      className={bracket.kind === 'question' ? styles.question : styles.note}
      data-ear={ear}
      data-note={bracket.id}
      data-selected={bracket.selected}
    >
      <title>{bracket.text}</title>
      <rect className={styles.column} x={left} y={plot.top} width={width} height={plot.height} />
      <path
        className={styles.bracket}
        d={`M${left} ${top + textSize * 0.1}v${textSize * 0.35}h${width}v${-textSize * 0.35}`}
      />
      <text className={styles.bandText} x={bracket.textFrom} y={top + textSize * 1.15} fontSize={textSize * 0.85}>
        {bracket.label}
      </text>
    </g>
  )
}

/** A ring or column around a place that somebody points out from elsewhere on the page. */
export function Highlight({ place, frame }: { place: ChartPlace; frame: ChartFrame }) {
  const { plot } = frame
  if (place.kind === 'pin') {
    const r = symbolRadius(frame) * 2.6
    return (
      <circle
        className={styles.highlight}
        data-highlight="pin"
        cx={xOf(frame, place.frequency)}
        cy={yOf(frame, place.level)}
        r={r}
      />
    )
  }
  const left = xOf(frame, place.from)
  return (
    <rect
      className={styles.highlight}
      data-highlight="band"
      x={left}
      y={plot.top}
      width={xOf(frame, place.to) - left}
      height={plot.height}
    />
  )
}
