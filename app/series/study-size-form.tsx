'use client'

import { useState } from 'react'
import { Field } from '@/app/components/field.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { type Messages, useMessages } from '@/app/messages/for-series.ts'
import type { SeriesAnswer } from '@/lib/interchange/series.ts'
import type { GainMeasure } from '@/lib/outcomes/site-comparison.ts'
import { twoGroupStudySize } from '@/lib/outcomes/study-size.ts'
import styles from './bars.module.css'

interface StudySizeFormProps {
  readonly spread: SeriesAnswer['spread']
  readonly measure: GainMeasure
}

/** How many ears a study needs, from the spread of this series. */
export function StudySizeForm({ spread, measure }: StudySizeFormProps) {
  const { series } = useMessages()
  const words = series.size
  const [difference, setDifference] = useState('5')
  const [frequency, setFrequency] = useState('4000')
  const [power, setPower] = useState('80')
  const at = spread.find((each) => String(each.frequency) === frequency)
  return (
    <Pane title={words.title}>
      <div className={styles.controls}>
        <Field label={words.difference}>
          {(control) => (
            <input
              {...control}
              inputMode="decimal"
              value={difference}
              onChange={({ target }) => setDifference(target.value)}
            />
          )}
        </Field>
        <Field label={words.frequency}>
          {(control) => (
            <select {...control} value={frequency} onChange={({ target }) => setFrequency(target.value)}>
              {spread.map((each) => (
                <option key={each.frequency} value={each.frequency}>
                  {series.kiloHertzUnit(each.frequency)} ({series.ears(each.n)})
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label={words.power}>
          {(control) => (
            <input {...control} inputMode="numeric" value={power} onChange={({ target }) => setPower(target.value)} />
          )}
        </Field>
      </div>
      <output>{at === undefined ? null : answer(at, Number(difference), Number(power), series)}</output>
      <p className={styles.quiet}>
        {series.measures[measure]}. {words.note}
      </p>
    </Pane>
  )
}

function answer(
  { sd, frequency }: SeriesAnswer['spread'][number],
  difference: number,
  power: number,
  { size, kiloHertzUnit }: Messages['series'],
): string {
  if (!(difference >= 0.1 && difference <= 60 && power >= 50 && power <= 99)) return size.fault
  if (sd === null || sd === 0) return size.tooFew
  try {
    const { n } = twoGroupStudySize({ difference, sd }, power / 100)
    return size.answer(n, { db: difference, at: kiloHertzUnit(frequency), power, sd })
  } catch (error) {
    if (error instanceof RangeError) return size.tooMany
    throw error
  }
}
