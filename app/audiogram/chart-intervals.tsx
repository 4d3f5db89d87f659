import type { Ear } from '@/lib/units/frequencies.ts'
import styles from './chart-intervals.module.css'
import { type ChartFrame, xOf, yOf } from './geometry.ts'

/** A range of levels over frequency, for example an 80 % forecast interval or the range of an age group. In dB HL. */
export interface LevelBand {
  readonly id: string
  readonly kind: 'forecast' | 'age' | 'speech' | 'heard'
  readonly ear?: Ear
  /** named at the right end of the band; without it a legend beside the chart does */
  readonly label?: string
  readonly limits: readonly {
    readonly hz: number
    readonly low: number
    readonly high: number
    readonly middle?: number
  }[]
}

export function LevelBands({ bands, frame }: { bands: readonly LevelBand[]; frame: ChartFrame }) {
  return bands
    .filter(({ limits }) => limits.length > 1)
    .map((band) => (
      <g key={band.id} className={styles.band} data-kind={band.kind} data-ear={band.ear} data-band={band.id}>
        <path className={styles.area} d={areaOf(band, frame)} />
        <path className={styles.middle} d={middleOf(band, frame)} />
        <BandLabel band={band} frame={frame} />
      </g>
    ))
}

function BandLabel({ band, frame }: { band: LevelBand; frame: ChartFrame }) {
  const last = band.limits.at(-1)
  if (last === undefined || band.label === undefined) return null
  return (
    <text
      className={styles.label}
      x={xOf(frame, last.hz)}
      y={yOf(frame, last.high) + frame.textSize}
      fontSize={frame.textSize * 0.85}
      textAnchor="end"
    >
      {band.label}
    </text>
  )
}

function areaOf({ limits }: LevelBand, frame: ChartFrame): string {
  const upper = limits.map(({ hz, low }) => `${xOf(frame, hz)} ${yOf(frame, low)}`)
  const lower = limits.toReversed().map(({ hz, high }) => `${xOf(frame, hz)} ${yOf(frame, high)}`)
  return `M${[...upper, ...lower].join('L')}Z`
}

function middleOf({ limits }: LevelBand, frame: ChartFrame): string {
  const places = limits.flatMap(({ hz, middle }) =>
    middle === undefined ? [] : [`${xOf(frame, hz)} ${yOf(frame, middle)}`],
  )
  return places.length > 1 ? `M${places.join('L')}` : ''
}
