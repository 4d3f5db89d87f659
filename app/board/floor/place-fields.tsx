'use client'

import { useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { ChartPlace } from '@/lib/board/records/annotation.ts'
import { audiometricFrequenciesHz, type Ear, type FrequencyHz, isFrequencyHz } from '@/lib/units/frequencies.ts'
import type { FloorDesk } from './floor-desk.ts'
import styles from './place-fields.module.css'

interface PlaceFieldsProps {
  readonly ear: Ear
  readonly thresholdAt: FloorDesk['thresholdAt']
  readonly onUse: (place: ChartPlace) => void
}

const levelsDbHl = Array.from({ length: 27 }, (_, index) => index * 5 - 10)

/** A place on the audiogram by form controls: the same places that a click on the chart gives. */
export function PlaceFields({ ear: firstEar, thresholdAt, onUse }: PlaceFieldsProps) {
  const { floor, words } = useMessages()
  const [ear, setEar] = useState<Ear>(firstEar)
  const [shape, setShape] = useState<ChartPlace['kind']>('pin')
  const [from, setFrom] = useState<FrequencyHz>(2000)
  const [to, setTo] = useState<FrequencyHz>(4000)
  const [level, setLevel] = useState<number>()
  const levelDbHl = level ?? thresholdAt(ear, from) ?? 0
  const place = ChartPlace.safeParse(
    shape === 'pin' ? { kind: 'pin', ear, frequency: from, level: levelDbHl } : { kind: 'band', ear, from, to },
  )
  return (
    <div className={styles.fields}>
      <Field label={floor.anchor.ear}>
        {(control) => (
          <select
            {...control}
            value={ear}
            onChange={(event) => setEar(event.target.value === 'left' ? 'left' : 'right')}
          >
            <option value="right">{words.ear.right}</option>
            <option value="left">{words.ear.left}</option>
          </select>
        )}
      </Field>
      <Field label={floor.anchor.shape}>
        {(control) => (
          <select
            {...control}
            value={shape}
            onChange={(event) => setShape(event.target.value === 'band' ? 'band' : 'pin')}
          >
            <option value="pin">{floor.anchor.pin}</option>
            <option value="band">{floor.anchor.band}</option>
          </select>
        )}
      </Field>
      <FrequencyField
        label={shape === 'pin' ? floor.anchor.frequency : floor.anchor.from}
        value={from}
        onChange={setFrom}
      />
      {shape === 'band' && (
        <FrequencyField
          label={floor.anchor.to}
          value={to}
          onChange={setTo}
          error={place.success ? undefined : floor.anchor.bandOrder}
        />
      )}
      {shape === 'pin' && (
        <Field label={floor.anchor.level}>
          {(control) => (
            <select {...control} value={levelDbHl} onChange={(event) => setLevel(Number(event.target.value))}>
              {[...new Set([...levelsDbHl, levelDbHl])]
                .sort((a, b) => a - b)
                .map((step) => (
                  <option key={step} value={step}>
                    {step}
                  </option>
                ))}
            </select>
          )}
        </Field>
      )}
      <Button disabled={!place.success} onClick={() => place.success && onUse(place.data)}>
        {floor.anchor.use}
      </Button>
    </div>
  )
}

interface FrequencyFieldProps {
  readonly label: string
  readonly value: FrequencyHz
  readonly onChange: (frequency: FrequencyHz) => void
  readonly error?: string | undefined
}

export function FrequencyField({ label, value, onChange, error }: FrequencyFieldProps) {
  const { floor } = useMessages()
  const take = (hz: number) => {
    if (isFrequencyHz(hz)) onChange(hz)
  }
  return (
    <Field label={label} error={error}>
      {(control) => (
        <select {...control} value={value} onChange={(event) => take(Number(event.target.value))}>
          {audiometricFrequenciesHz.map((hz) => (
            <option key={hz} value={hz}>
              {floor.place.frequency(hz)}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
