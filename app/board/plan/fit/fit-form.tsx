'use client'

import { type FormEvent, useState } from 'react'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-forecast-records.ts'
import { type FitMeasurement, FitPlace, ImagingKind } from '@/lib/board/records/fit-measurement.ts'
import { BodyDimension, MeasuringDirection } from '@/lib/devices/room-measurement.ts'
import { type FitContent, readFit } from './fit-entry.ts'
import styles from './fit-list.module.css'

const numbers = ['distanceMm', 'voxelMm', 'sliceSpacingMm'] as const

interface FitFormProps {
  /** what stands now, when it is corrected */
  readonly entered?: FitMeasurement | undefined
  readonly onEnter: (content: FitContent) => void
  readonly onCancel: () => void
}

/** One distance with all that its error depends on. */
export function FitForm({ entered, onEnter, onCancel }: FitFormProps) {
  const { forecastRecords, shell } = useMessages()
  const { fit: words } = forecastRecords
  const title = entered === undefined ? words.add : words.correct(words.places[entered.place])
  const beforePosting = usePostGuard()
  const [faults, setFaults] = useState<ReadonlySet<string>>(new Set())
  const enter = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    const reading = readFit(Object.fromEntries(new FormData(event.currentTarget)))
    if (!reading.ok) return setFaults(new Set(reading.fields))
    setFaults(new Set())
    beforePosting(reading.content.remark, () => onEnter(reading.content))
  }
  const labels = { distanceMm: words.distance, voxelMm: words.voxel, sliceSpacingMm: words.slices }
  const domain = {
    distanceMm: words.wrong(0, 100),
    voxelMm: words.wrong(0.01, 5),
    sliceSpacingMm: words.wrong(0.01, 10),
  }
  return (
    <form className={styles.form} onSubmit={enter} noValidate aria-label={title}>
      <Choice
        name="place"
        initial={entered?.place}
        label={words.place}
        options={FitPlace.options}
        nameOf={(place) => words.places[place]}
      />
      <Choice
        name="roomFor"
        initial={entered?.roomFor}
        label={words.roomFor}
        none={words.reading}
        options={BodyDimension.options}
        nameOf={(dimension) => words.dimension[dimension]}
      />
      {numbers.map((name) => (
        <Field
          key={name}
          label={labels[name]}
          error={faults.has(name) ? domain[name] : undefined}
          {...(name === 'sliceSpacingMm' ? { hint: words.slicesHint } : {})}
        >
          {(control) => (
            <input {...control} name={name} defaultValue={entered?.[name]} inputMode="decimal" autoComplete="off" />
          )}
        </Field>
      ))}
      <Choice
        name="direction"
        initial={entered?.direction}
        label={words.direction}
        options={MeasuringDirection.options}
        nameOf={(direction) => words.directions[direction]}
      />
      <Choice
        name="imaging"
        initial={entered?.imaging}
        label={words.imaging}
        options={ImagingKind.options}
        nameOf={(imaging) => words.imagings[imaging]}
      />
      <div className={styles.submit}>
        <Button type="submit" tone="accent">
          {entered === undefined ? words.submit : words.submitCorrection}
        </Button>
        <Button onClick={onCancel}>{shell.cancel}</Button>
      </div>
    </form>
  )
}

interface ChoiceProps<T extends string> {
  readonly name: string
  readonly initial?: T | undefined
  readonly label: string
  readonly none?: string
  readonly options: readonly T[]
  readonly nameOf: (option: T) => string
}

function Choice<T extends string>({ name, initial, label, none, options, nameOf }: ChoiceProps<T>) {
  return (
    <Field label={label}>
      {(control) => (
        <select {...control} name={name} defaultValue={initial}>
          {none !== undefined && <option value="">{none}</option>}
          {options.map((option) => (
            <option key={option} value={option}>
              {nameOf(option)}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
