'use client'

import { useState } from 'react'
import { useBoard, useMay, useSingle, useTable } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { CloseIcon } from '@/app/components/icons.tsx'
import { useMessages } from '@/app/messages/for-forecast-records.ts'
import { changeFitMeasurement, measureFit, removeFitMeasurement } from '@/lib/board/edits/forecast.ts'
import type { FitMeasurement } from '@/lib/board/records/fit-measurement.ts'
import type { DeviceProfile } from '@/lib/devices/device-profile.ts'
import type { FitContent } from './fit-entry.ts'
import { FitForm } from './fit-form.tsx'
import styles from './fit-list.module.css'
import { FitVerdicts } from './fit-verdicts.tsx'
import { roomsOf, sdOf } from './rooms.ts'

/** Distances of the planned ear in its scans, and whether the bodies of the profile fit there. */
export default function FitList({ profile }: { readonly profile: DeviceProfile | undefined }) {
  const { forecastRecords } = useMessages()
  const { fit: words } = forecastRecords
  const { record, pen } = useBoard()
  const may = useMay()
  const [writing, setWriting] = useState<Writing>()
  const all = useTable('fitMeasurements')
  const plan = useSingle('plan')
  const header = useSingle('header')
  const ear = plan?.ear ?? header?.ear
  if (ear === undefined) return <p className={styles.note}>{words.none}</p>
  const measurements = all.filter((measurement) => measurement.ear === ear)
  return (
    <>
      <FitVerdicts bodies={profile?.bodies ?? []} rooms={roomsOf(all, ear)} />
      {measurements.length === 0 ? (
        <p className={styles.note}>{words.none}</p>
      ) : (
        <ul className={styles.list}>
          {measurements.map((measurement) => (
            <Distance
              key={measurement.id}
              measurement={measurement}
              onCorrect={
                may.mayChange('fitMeasurements', 'distanceMm', measurement)
                  ? () => setWriting({ kind: 'correction', of: measurement })
                  : undefined
              }
              onRemove={
                may.mayRemove('fitMeasurements', measurement)
                  ? () => removeFitMeasurement(record, measurement.id)
                  : undefined
              }
            />
          ))}
        </ul>
      )}
      {may.mayCreate('fitMeasurements') && (
        <div>
          <Button
            aria-expanded={writing?.kind === 'new'}
            onClick={() => setWriting(writing?.kind === 'new' ? undefined : { kind: 'new' })}
          >
            {words.add}
          </Button>
        </div>
      )}
      {writing !== undefined && (
        <FitForm
          key={writing.kind === 'new' ? 'new' : writing.of.id}
          entered={writing.kind === 'new' ? undefined : writing.of}
          onCancel={() => setWriting(undefined)}
          onEnter={(content) => {
            if (writing.kind === 'new') measureFit(record, pen, { ...content, ear })
            else changeFitMeasurement(record, writing.of.id, correctionBy(content))
            setWriting(undefined)
          }}
        />
      )}
    </>
  )
}

/** What the form does not ask for stays as it was entered. */
function correctionBy({ place, roomFor, distanceMm, imaging, voxelMm, sliceSpacingMm, direction }: FitContent) {
  return { place, roomFor, distanceMm, imaging, voxelMm, sliceSpacingMm, direction }
}

/** What the form is open for: another distance, or the correction of one. */
type Writing = { readonly kind: 'new' } | { readonly kind: 'correction'; readonly of: FitMeasurement }

interface DistanceProps {
  readonly measurement: FitMeasurement
  readonly onCorrect: (() => void) | undefined
  readonly onRemove: (() => void) | undefined
}

function Distance({ measurement, onCorrect, onRemove }: DistanceProps) {
  const { forecastRecords } = useMessages()
  const { fit: words } = forecastRecords
  const { place, roomFor, distanceMm, imaging, direction, remark } = measurement
  return (
    <li className={styles.row}>
      <span className={styles.name}>{words.places[place]}</span>
      <span className={styles.value}>{words.withSd(distanceMm, sdOf(measurement))}</span>
      <span className={styles.facts}>
        {[
          roomFor === undefined ? words.reading : words.dimension[roomFor],
          words.imagings[imaging],
          words.directions[direction],
          remark,
        ]
          .filter(Boolean)
          .join(', ')}
      </span>
      {onCorrect !== undefined && (
        <Button tone="quiet" aria-label={words.correct(words.places[place])} onClick={onCorrect}>
          {words.correctShort}
        </Button>
      )}
      {onRemove !== undefined && (
        <IconButton label={words.remove(words.places[place])} onClick={onRemove}>
          <CloseIcon />
        </IconButton>
      )}
    </li>
  )
}
