import type { CSSProperties } from 'react'
import type { Prediction } from '@/lib/forecast/prediction.ts'
import styles from './interval-bar.module.css'

/** Common scale of the bars, dB HL. */
export const barAxis = { low: 0, high: 100 } as const

const onAxis = (value: number): string =>
  `${(100 * (Math.min(barAxis.high, Math.max(barAxis.low, value)) - barAxis.low)) / (barAxis.high - barAxis.low)}%`

/** A number on the common scale: a tick, a thick bar for 50 % and a thin one for 80 %. */
export function IntervalBar({ prediction }: { prediction: Prediction }) {
  if (prediction.kind !== 'estimate') return null
  const { interval, interval50, value } = prediction
  const place = {
    '--low': onAxis(interval.low),
    '--high': onAxis(interval.high),
    '--low50': onAxis(interval50.low),
    '--high50': onAxis(interval50.high),
    '--value': onAxis(value),
  } as CSSProperties
  return (
    <span className={styles.bar} style={place} aria-hidden="true">
      <span className={styles.range} />
      <span className={styles.half} />
      <span className={styles.middle} />
    </span>
  )
}
