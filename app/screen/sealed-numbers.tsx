'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import type { SealedChange } from '@/lib/devices/sealed-answer.ts'
import type { SealedForecast } from '@/lib/devices/sealed-forecast.ts'
import type { SealedQuantity } from '@/lib/devices/sealed-numbers.ts'
import styles from './sealed-numbers.module.css'
import { useWords } from './use-words.ts'

interface BigNumberProps {
  readonly label: string
  readonly unit: string
  readonly number: SealedQuantity | SealedChange
  readonly hint?: string
}

/** One number as a room reads it, with its 80 % interval. */
export function BigNumber({ label, unit, number, hint }: BigNumberProps) {
  return (
    <div className={styles.tile}>
      <dt className={styles.label}>{label}</dt>
      <dd className={styles.big}>
        <Value of={number} /> {number.kind !== 'absent' && <span className={styles.unit}>{unit}</span>}
      </dd>
      <dd className={styles.interval}>
        <Interval of={number} /> {hint !== undefined && <span className={styles.hint}>{hint}</span>}
      </dd>
    </div>
  )
}

function Value({ of }: { of: SealedQuantity | SealedChange }) {
  const { forecast, screens } = useMessages()
  switch (of.kind) {
    case 'estimate':
      return forecast.number(of.value)
    case 'at-least':
      return forecast.atLeast(of.value)
    case 'at-most':
      return forecast.atMost(of.value)
    case 'change':
      return screens.screen.signedChange(of.value)
    case 'absent':
      return screens.screen.noNumber
    default:
      return of satisfies never
  }
}

function Interval({ of }: { of: SealedQuantity | SealedChange }) {
  const { forecast } = useMessages()
  if (of.kind !== 'estimate' && of.kind !== 'change') return null
  return forecast.range(of.interval.low, of.interval.high)
}

interface RowsProps {
  readonly content: SealedForecast
  /** changes by frequency, for a scenario */
  readonly changes?: readonly { readonly frequency: number; readonly aidedThreshold: SealedChange }[]
}

/** Aided thresholds by frequency, and how a scenario changes them; frequencies without a number are left out. */
export function NumbersByFrequency({ content, changes }: RowsProps) {
  const { forecast, screens } = useMessages()
  const { frequency: nameOf } = useWords()
  const known = content.byFrequency.filter(({ aidedThreshold }) => aidedThreshold.kind !== 'absent')
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">{forecast.frequency}</th>
          {known.map(({ frequency }) => (
            <th key={frequency} scope="col">
              {nameOf(frequency)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        <tr>
          <th scope="row">{`${screens.screen.aided}, ${forecast.unit.threshold}`}</th>
          {known.map(({ frequency, aidedThreshold }) => (
            <Cell key={frequency} of={aidedThreshold} />
          ))}
        </tr>
        {changes !== undefined && (
          <tr>
            <th scope="row">{`${screens.screen.change}, ${forecast.unit.gain}`}</th>
            {known.map(({ frequency }) => {
              const change = changes.find((at) => at.frequency === frequency)
              return change === undefined ? <td key={frequency} /> : <Cell key={frequency} of={change.aidedThreshold} />
            })}
          </tr>
        )}
      </tbody>
    </table>
  )
}

function Cell({ of }: { of: SealedQuantity | SealedChange }) {
  return (
    <td>
      <span className={styles.value}>
        <Value of={of} />
      </span>
      <span className={styles.interval}>
        <Interval of={of} />
      </span>
    </td>
  )
}
