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
  /** which of the limits the label stands at; the last unless given */
  readonly labelAt?: number
  /** tells bands of one kind apart without colour */
  readonly pattern?: 1 | 2 | 3
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
      <g
        key={band.id}
        className={styles.band}
        data-kind={band.kind}
        data-ear={band.ear}
        data-pattern={band.pattern}
        data-band={band.id}
      >
        <path className={styles.area} d={areaOf(band, frame)} />
        <path className={styles.middle} d={middleOf(band, frame)} />
        <BandLabel band={band} frame={frame} />
      </g>
    ))
}

function BandLabel({ band, frame }: { band: LevelBand; frame: ChartFrame }) {
  const { pattern, labelAt = -1 } = band
  const place = band.limits.at(labelAt)
  if (place === undefined || band.label === undefined) return null
  const onLine = pattern !== undefined && place.middle !== undefined
  return (
    <text
      className={styles.label}
      x={xOf(frame, place.hz)}
      y={
        onLine ? yOf(frame, place.middle ?? place.high) - frame.textSize * 0.3 : yOf(frame, place.high) + frame.textSize
      }
      fontSize={frame.textSize * (onLine ? 1.1 : 0.85)}
      textAnchor={onLine ? 'middle' : 'end'}
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
