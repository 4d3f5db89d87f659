import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './chart-stamps.module.css'
import type { ChartFrame } from './geometry.ts'
import type { ChartLayer } from './layers.ts'
import { quietestHeight, type StampState, type Stamps } from './stamps.ts'

interface ChartStampsProps {
  readonly stamps: Stamps
  readonly layers: readonly ChartLayer[]
  readonly frame: ChartFrame
  readonly patternId: string
}

/**
 * Hatching, strokes and words that say what is not current: seen without colour and from far away. They stand behind
 * the signs, and the word where the fewest signs are, so that the numbers can still be read.
 */
export function ChartStamps({ stamps, layers, frame, patternId }: ChartStampsProps) {
  const { audiogram } = useMessages()
  const across = quietestHeight(layers, frame.range)
  return (
    <g className={styles.stamps}>
      <HatchPattern id={patternId} spacing={Math.max(9, frame.octave / 6)} />
      {stamps.whole !== undefined && (
        <WholeStamp state={stamps.whole} across={across} frame={frame} patternId={patternId} />
      )}
      {stamps.partly.map(({ ear, state }, index) => (
        <PartStamp
          key={`${ear}.${state}`}
          text={audiogram.stampOf(ear, state)}
          line={index}
          frame={frame}
          patternId={patternId}
        />
      ))}
    </g>
  )
}

function HatchPattern({ id, spacing }: { id: string; spacing: number }) {
  return (
    <defs>
      <pattern id={id} width={spacing} height={spacing} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line className={styles.hatch} x1="0" y1="0" x2="0" y2={spacing} />
      </pattern>
    </defs>
  )
}

interface WholeStampProps {
  readonly state: StampState
  readonly across: number
  readonly frame: ChartFrame
  readonly patternId: string
}

function WholeStamp({ state, across, frame, patternId }: WholeStampProps) {
  const { audiogram } = useMessages()
  const { plot } = frame
  const { left, top, width, height } = plot
  const text = audiogram.stamps[state]
  const size = Math.min((width * 0.9) / (text.length * 0.74), height / 6)
  const x = left + width / 2
  const y = top + height * across
  return (
    <g data-stamp={state}>
      <rect x={left} y={top} width={width} height={height} fill={`url(#${patternId})`} />
      {state === 'entered-in-error' && (
        <path className={styles.strike} d={`M${left} ${top}l${width} ${height}m0 ${-height}l${-width} ${height}`} />
      )}
      <text className={styles.word} x={x} y={y + size * 0.27} fontSize={size} textAnchor="middle">
        {text}
      </text>
    </g>
  )
}

interface PartStampProps {
  readonly text: string
  readonly line: number
  readonly frame: ChartFrame
  readonly patternId: string
}

function PartStamp({ text, line, frame, patternId }: PartStampProps) {
  const { plot, textSize } = frame
  const height = textSize * 2
  const y = plot.top + plot.height - (line + 1) * height
  const plate = Math.min(plot.width, text.length * textSize * 0.8 + textSize)
  return (
    <g data-stamp="part">
      <rect x={plot.left} y={y} width={plot.width} height={height} fill={`url(#${patternId})`} />
      <rect
        className={styles.plate}
        x={plot.left + (plot.width - plate) / 2}
        y={y + 2}
        width={plate}
        height={height - 4}
      />
      <text
        className={styles.word}
        x={plot.left + plot.width / 2}
        y={y + height * 0.68}
        fontSize={textSize * 1.1}
        textAnchor="middle"
      >
        {text}
      </text>
    </g>
  )
}
