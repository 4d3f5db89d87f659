import { memo } from 'react'
import { useMessages } from '@/app/messages/use-messages.ts'
import { labelled, levelsIn } from './axis-labels.ts'
import styles from './chart-axes.module.css'
import { type ChartFrame, frequenciesIn, isOctave, xOf, yOf } from './geometry.ts'

/** Frequency lines (half-octaves dashed), level lines and their numbers. */
export const ChartAxes = memo(function ChartAxes({ frame }: { frame: ChartFrame }) {
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
})

function LevelLines({ frame }: { frame: ChartFrame }) {
  const { plot, textSize, range } = frame
  return levelsIn(range).map((level) => (
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
