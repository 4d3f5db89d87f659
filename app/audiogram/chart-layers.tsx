import { useMessages } from '@/app/messages/use-messages.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import styles from './chart-layers.module.css'
import { type ChartFrame, isOffGrid, symbolRadius } from './geometry.ts'
import { type ChartLayer, type ChartLine, type ChartMark, levelOf } from './layers.ts'
import { linePath, spotOf } from './spots.ts'
import { arrowPath, outlineOf, type SymbolChoice, symbolFor } from './symbols.ts'

/** Lines and signs of one test. Air conduction is joined by solid lines, bone conduction by dashed ones (ISO 8253-1, from memory, unconfirmed). */
export function LayerMarks({ layer, frame }: { layer: ChartLayer; frame: ChartFrame }) {
  return (
    <g className={styles.layer} data-ear={layer.ear} data-style={layer.style}>
      {layer.lines.map((line) => (
        <ThresholdLine key={`${line.route}.${line.places[0]?.frequency}`} line={line} ear={layer.ear} frame={frame} />
      ))}
      {layer.marks.map((mark) => (
        <PlacedMark key={`${mark.route}.${mark.masked}.${mark.frequency}`} mark={mark} layer={layer} frame={frame} />
      ))}
    </g>
  )
}

function ThresholdLine({ line, ear, frame }: { line: ChartLine; ear: Ear; frame: ChartFrame }) {
  return <path className={styles.line} data-route={line.route} d={linePath(line, ear, frame)} />
}

interface PlacedMarkProps {
  readonly mark: ChartMark
  readonly layer: Pick<ChartLayer, 'ear' | 'style'>
  readonly frame: ChartFrame
}

export function PlacedMark({ mark, layer, frame }: PlacedMarkProps) {
  const level = levelOf(mark.point)
  if (level === undefined) return null
  const choice = symbolFor({ ...mark, ear: layer.ear, noResponse: mark.point.kind === 'no-response' })
  const r = symbolRadius(frame)
  const { x, y } = spotOf(mark.frequency, level, choice, frame)
  return (
    <g
      className={styles.mark}
      data-ear={layer.ear}
      data-shape={choice.shape}
      data-masked={mark.masked}
      data-arrow={choice.arrow}
      data-frequency={mark.frequency}
      data-level={level}
      transform={`translate(${x} ${y})`}
    >
      <Sign choice={choice} ear={layer.ear} r={r} />
      {layer.style === 'entered-in-error' && <path className={styles.strike} d={`M${-r * 1.6} 0L${r * 1.6} 0`} />}
      {isOffGrid(level) && <OffGridNumber level={level} r={r} textSize={frame.textSize} />}
    </g>
  )
}

/** An audiogram sign around (0, 0), also used in legends. */
export function Sign({ choice, ear, r }: { choice: SymbolChoice; ear: Ear; r: number }) {
  const outline = outlineOf(choice.shape, r)
  return (
    <>
      {outline === undefined ? (
        <LetterSign letter={choice.shape === 'letter-s' ? 'S' : 'A'} ear={ear} r={r} />
      ) : (
        <path className={styles.sign} d={outline} />
      )}
      {choice.arrow !== undefined && <path className={styles.arrow} d={arrowPath(choice.arrow, r)} />}
    </>
  )
}

/** Sound field and aided letters are the same for both ears, so the ear's own letter stands beside them. */
function LetterSign({ letter, ear, r }: { letter: string; ear: Ear; r: number }) {
  const { audiogram } = useMessages()
  return (
    <>
      <text className={styles.letter} y={r * 0.85} fontSize={r * 2.4} textAnchor="middle">
        {letter}
      </text>
      <text
        className={styles.letter}
        x={(ear === 'right' ? -1 : 1) * r * 1.35}
        y={-r * 0.1}
        fontSize={r * 1.4}
        textAnchor="middle"
      >
        {audiogram.earLetters[ear]}
      </text>
    </>
  )
}

/** A level between the 5 dB steps says its number, so that it is seen to be meant. */
function OffGridNumber({ level, r, textSize }: { level: number; r: number; textSize: number }) {
  const size = Math.max(textSize * 0.8, r)
  return (
    <text className={styles.offGrid} y={-r * 1.6} fontSize={size} textAnchor="middle">
      {String(level).replace('-', '−')}
    </text>
  )
}
