import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './chart-axes.module.css'
import { type ChartFrame, frequenciesIn, isOctave, xOf, yOf } from './geometry.ts'

/** Frequency lines (half-octaves dashed), level lines and their numbers. */
export function ChartAxes({ frame }: { frame: ChartFrame }) {
  const { audiogram } = useMessages()
  const { plot, textSize } = frame
  return (
    <g>
      <rect className={styles.ground} x={plot.left} y={plot.top} width={plot.width} height={plot.height} />
      <LevelLines frame={frame} />
      <FrequencyLines frame={frame} />
      <text className={styles.unit} x={plot.left - textSize * 0.4} y={plot.top - textSize * 0.7} textAnchor="end">
        {audiogram.levelUnit.split(' ')[0]}
      </text>
      <text className={styles.unit} x={plot.left - textSize * 0.4} y={plot.top - textSize * 1.9} textAnchor="end">
        {audiogram.frequencyUnit}
      </text>
    </g>
  )
}

function LevelLines({ frame }: { frame: ChartFrame }) {
  const { plot, textSize, range } = frame
  const levels = Array.from(
    { length: (range.bottomDbHl - range.topDbHl) / 10 + 1 },
    (_, step) => range.topDbHl + step * 10,
  )
  return levels.map((level) => (
    <g key={level}>
      <line
        className={styles.line}
        data-zero={level === 0}
        x1={plot.left}
        x2={plot.left + plot.width}
        y1={yOf(frame, level)}
        y2={yOf(frame, level)}
      />
      <text
        className={styles.number}
        x={plot.left - textSize * 0.4}
        y={yOf(frame, level) + textSize * 0.34}
        textAnchor="end"
      >
        {String(level).replace('-', '−')}
      </text>
    </g>
  ))
}

function FrequencyLines({ frame }: { frame: ChartFrame }) {
  const { plot, textSize } = frame
  const shown = labelled(frame)
  return frequenciesIn(frame.range).map((hz) => (
    <g key={hz} data-octave={isOctave(hz)}>
      <line
        className={styles.line}
        data-half={!isOctave(hz)}
        x1={xOf(frame, hz)}
        x2={xOf(frame, hz)}
        y1={plot.top}
        y2={plot.top + plot.height}
      />
      {shown.has(hz) && (
        <text
          className={isOctave(hz) ? styles.number : styles.half}
          x={xOf(frame, hz)}
          y={plot.top - textSize * (isOctave(hz) ? 1.7 : 0.55)}
          textAnchor="middle"
        >
          {hz}
        </text>
      )}
    </g>
  ))
}

/** Frequencies whose numbers fit beside one another: octaves in the upper row, the others in the lower one. */
function labelled(frame: ChartFrame): ReadonlySet<number> {
  const shown = new Set<number>()
  for (const row of [true, false]) {
    let free = Number.NEGATIVE_INFINITY
    for (const hz of frequenciesIn(frame.range).filter((frequency) => isOctave(frequency) === row)) {
      const half = String(hz).length * frame.textSize * (row ? 0.33 : 0.29)
      if (xOf(frame, hz) - half < free) continue
      shown.add(hz)
      free = xOf(frame, hz) + half + frame.textSize * 0.25
    }
  }
  return shown
}
