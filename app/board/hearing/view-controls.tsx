import { memo, useId } from 'react'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { ChartMode, EarsShown, HearingView } from './hearing-view.ts'
import styles from './view-controls.module.css'

interface ViewControlsProps {
  readonly view: HearingView
  readonly modes: readonly ChartMode[]
  readonly change: (patch: Partial<HearingView>) => void
}

const earsChoices: readonly EarsShown[] = ['together', 'apart', 'right', 'left']

/** Which ears, and what a press on the chart does. */
export const ViewControls = memo(function ViewControls({ view, modes, change }: ViewControlsProps) {
  const { hearing } = useMessages()
  return (
    <div className={styles.controls}>
      <Choice
        legend={hearing.ears.legend}
        options={earsChoices}
        value={view.ears}
        label={(ears) => hearing.ears[ears]}
        onChange={(ears) => change({ ears, ...(ears === 'right' || ears === 'left' ? { focus: ears } : {}) })}
      />
      {modes.length > 1 && (
        <Choice
          legend={hearing.modes.legend}
          options={modes}
          value={view.mode}
          label={(mode) => hearing.modes[mode]}
          onChange={(mode) => change({ mode })}
        />
      )}
    </div>
  )
})

/** What else stands on the chart or beside it. */
export const ViewTicks = memo(function ViewTicks({ view, change }: Omit<ViewControlsProps, 'modes'>) {
  const { hearing } = useMessages()
  return (
    <>
      <Tick label={hearing.numbers} checked={view.numbers} onChange={(numbers) => change({ numbers })} />
      <Tick label={hearing.extended} checked={view.extended} onChange={(extended) => change({ extended })} />
      <Tick label={hearing.others} checked={view.companions} onChange={(companions) => change({ companions })} />
    </>
  )
})

interface ChoiceProps<T extends string> {
  readonly legend: string
  readonly options: readonly T[]
  readonly value: T
  readonly label: (option: T) => string
  readonly onChange: (option: T) => void
}

/** One of a few, all of them in view. */
export function Choice<T extends string>({ legend, options, value, label, onChange }: ChoiceProps<T>) {
  const name = useId()
  return (
    <fieldset className={styles.choice}>
      <legend className={styles.legend}>{legend}</legend>
      <div className={styles.options}>
        {options.map((option) => (
          <label key={option} className={styles.option} data-chosen={option === value}>
            <input type="radio" name={name} checked={option === value} onChange={() => onChange(option)} />
            {label(option)}
          </label>
        ))}
      </div>
    </fieldset>
  )
}

interface TickProps {
  readonly label: string
  readonly checked: boolean
  readonly onChange: (checked: boolean) => void
}

export function Tick({ label, checked, onChange }: TickProps) {
  return (
    <label className={styles.tick}>
      <input type="checkbox" checked={checked} onChange={(event) => onChange(event.currentTarget.checked)} />
      {label}
    </label>
  )
}
