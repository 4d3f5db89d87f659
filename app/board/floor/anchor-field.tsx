'use client'

import { useState } from 'react'
import { startPick, stopPick, useChartPick } from '@/app/board/chart-pick.ts'
import { optionText } from '@/app/board/plan/option-text.ts'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { CloseIcon, PlaceIcon } from '@/app/components/icons.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Anchor } from '@/lib/board/records/question.ts'
import { DeviceClass, type DeviceOption, sitesOf } from '@/lib/devices/classes.ts'
import { AnchorChip, type Named } from './anchor-chip.tsx'
import styles from './anchor-field.module.css'
import type { FloorDesk, NamedRecord } from './floor-desk.ts'
import { PlaceFields } from './place-fields.tsx'

interface AnchorFieldProps {
  readonly anchor: Anchor | undefined
  readonly onChange: (anchor: Anchor | undefined) => void
  readonly desk: Named & Pick<FloorDesk, 'ear' | 'thresholdAt'>
}

/** What the question is about: nothing in particular, a place on the audiogram, an option, or a record with a name. */
export function AnchorField({ anchor, onChange, desk }: AnchorFieldProps) {
  const { floor, words } = useMessages()
  const [choosing, setChoosing] = useState<Anchor['kind']>()
  const choose = (next: Anchor) => {
    onChange(next)
    setChoosing(undefined)
  }
  if (anchor !== undefined)
    return (
      <div className={styles.chosen}>
        <span className={styles.about}>{floor.anchor.legend}</span>
        <AnchorChip anchor={anchor} named={desk} />
        <IconButton label={floor.anchor.remove} onClick={() => onChange(undefined)}>
          <CloseIcon />
        </IconButton>
      </div>
    )
  const toggle = (kind: Anchor['kind']) => () => setChoosing(choosing === kind ? undefined : kind)
  return (
    <fieldset className={styles.field} aria-label={floor.anchor.legend}>
      <div className={styles.kinds}>
        <span className={styles.about} aria-hidden="true">
          {floor.anchor.legend}
        </span>
        <PointButton onPlace={choose} />
        {(['chart', 'note', 'step', 'option', 'scenario'] as const)
          .filter((kind) => kind === 'chart' || kind === 'option' || listOf(kind, desk).length > 0)
          .map((kind) => (
            <Button key={kind} tone="quiet" aria-expanded={choosing === kind} onClick={toggle(kind)}>
              {floor.anchor[kind]}
            </Button>
          ))}
      </div>
      {choosing === 'chart' && (
        <PlaceFields
          ear={desk.ear}
          thresholdAt={desk.thresholdAt}
          onUse={(place) => choose({ kind: 'chart', place })}
        />
      )}
      {(choosing === 'note' || choosing === 'step' || choosing === 'scenario') && (
        <RecordSelect
          label={floor.anchor[chooseLabel[choosing]]}
          records={listOf(choosing, desk)}
          onChoose={(id) => choose({ kind: choosing, id })}
        />
      )}
      {choosing === 'option' && (
        <RecordSelect
          label={floor.anchor.chooseOption}
          records={options.map((option) => ({
            id: optionId(option),
            label: optionText(option, undefined, words),
          }))}
          onChoose={(id) => {
            const option = options.find((candidate) => optionId(candidate) === id)
            if (option !== undefined) choose({ kind: 'option', option })
          }}
        />
      )}
    </fieldset>
  )
}

const chooseLabel = { note: 'chooseNote', step: 'chooseStep', scenario: 'chooseScenario' } as const
const tableOf = { note: 'notes', step: 'steps', scenario: 'scenarios' } as const

const listOf = (kind: keyof typeof tableOf, desk: Named): readonly NamedRecord[] => desk[tableOf[kind]]

/** Every device class at each of its sites. */
const options: readonly DeviceOption[] = DeviceClass.options.flatMap((deviceClass) =>
  sitesOf[deviceClass].map((couplingSite) => ({ deviceClass, couplingSite })),
)
const optionId = ({ deviceClass, couplingSite }: DeviceOption): string => `${deviceClass} ${couplingSite}`

/**
 * Waits for a click on the audiogram. The waiting outlives a pane that is hidden meanwhile (a phone shows one at a time),
 * so whoever ends the form ends the waiting.
 */
function PointButton({ onPlace }: { readonly onPlace: (anchor: Anchor) => void }) {
  const { floor } = useMessages()
  const { picking } = useChartPick()
  const [isMine, setMine] = useState(false)
  const isPointing = isMine && picking
  const start = () => {
    setMine(true)
    startPick((place) => {
      setMine(false)
      onPlace({ kind: 'chart', place })
    })
  }
  return (
    <>
      <Button tone="quiet" aria-pressed={isPointing} onClick={isPointing ? stopPick : start}>
        <PlaceIcon /> {isPointing ? floor.anchor.stopPointing : floor.anchor.point}
      </Button>
      <span className={styles.pointing} role="status">
        {isPointing && floor.anchor.pointing}
      </span>
    </>
  )
}

interface RecordSelectProps {
  readonly label: string
  readonly records: readonly NamedRecord[]
  readonly onChoose: (id: string) => void
}

function RecordSelect({ label, records, onChoose }: RecordSelectProps) {
  const { floor } = useMessages()
  return (
    <Field label={label}>
      {(control) => (
        <select {...control} value="" onChange={(event) => onChoose(event.target.value)}>
          <option value="" disabled>
            {floor.anchor.choose}
          </option>
          {records.map(({ id, label: words }) => (
            <option key={id} value={id}>
              {words}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
