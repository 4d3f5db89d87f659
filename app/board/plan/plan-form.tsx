'use client'

import type { ComponentProps } from 'react'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { PlanPatch } from '@/lib/board/edits/plan.ts'
import { textLimits } from '@/lib/board/identity.ts'
import { EarCanal, OssicleState, type Plan } from '@/lib/board/records/plan.ts'
import { type CouplingSite, DeviceClass, sitesOf } from '@/lib/devices/classes.ts'
import { Ear } from '@/lib/units/frequencies.ts'
import { FoundField } from './found-field.tsx'
import { LiveText } from './live-text.tsx'
import styles from './plan-form.module.css'
import { ossicles, ossiclesInWords } from './plan-words.ts'

export type PlanFields = Pick<
  Plan,
  | 'ear'
  | 'deviceClass'
  | 'couplingSite'
  | 'malleus'
  | 'incus'
  | 'stapes'
  | 'earCanal'
  | 'earChanges'
  | 'approach'
  | 'aim'
>

interface PlanFormProps {
  readonly plan: PlanFields
  readonly onChange: (patch: PlanPatch) => void
}

/** The plan, written field by field while it is edited. */
export function PlanForm({ plan, onChange }: PlanFormProps) {
  const { plan: labels, words } = useMessages()
  return (
    <div className={styles.form}>
      <div className={styles.choices}>
        <Choice
          label={labels.ear}
          value={plan.ear}
          options={Ear.options}
          nameOf={(ear) => words.ear[ear]}
          onChoose={(ear) => ear !== undefined && onChange({ ear })}
        />
        <Choice
          label={labels.deviceClass}
          value={plan.deviceClass}
          options={DeviceClass.options}
          nameOf={(deviceClass) => words.deviceClass[deviceClass]}
          none={labels.notDecided}
          onChoose={(deviceClass) => onChange({ deviceClass })}
        />
        <Choice
          label={labels.couplingSite}
          value={plan.couplingSite}
          options={plan.deviceClass === undefined ? [] : sitesOf[plan.deviceClass]}
          nameOf={(site: CouplingSite) => words.couplingSite[site]}
          none={plan.deviceClass === undefined ? labels.siteNeedsClass : labels.notDecided}
          onChoose={(couplingSite) => onChange({ couplingSite })}
        />
      </div>
      <Rest plan={plan} onChange={onChange} />
    </div>
  )
}

/** What changes the forecast less often, folded away under one line that says how it stands. */
function Rest({ plan, onChange }: PlanFormProps) {
  const { plan: labels } = useMessages()
  return (
    <details className={styles.rest}>
      <summary className={styles.restTitle}>
        {labels.rest} <span className={styles.restNow}>{ossiclesInWords(plan, labels)}</span>
      </summary>
      <div className={styles.restFields}>
        <fieldset className={styles.ossicles}>
          <legend className={styles.legend}>{labels.ossicles}</legend>
          {ossicles.map((ossicle) => (
            <Choice
              key={ossicle}
              label={labels[ossicle]}
              value={plan[ossicle]}
              options={OssicleState.options}
              nameOf={(state) => labels.ossicleState[state]}
              onChoose={(state) => state !== undefined && onChange({ [ossicle]: state })}
            />
          ))}
        </fieldset>
        <Choice
          label={labels.earCanal}
          value={plan.earCanal}
          options={EarCanal.options}
          nameOf={(state) => labels.earCanalState[state]}
          none={labels.earCanalUnknown}
          onChoose={(earCanal) => onChange({ earCanal })}
        />
        <FoundField plan={plan} onChange={(earChanges) => onChange({ earChanges })} />
        <div className={styles.texts}>
          <Text label={labels.approach} value={plan.approach} onWrite={(approach) => onChange({ approach })} />
          <Text label={labels.aim} placeholder={labels.aimHint} value={plan.aim} onWrite={(aim) => onChange({ aim })} />
        </div>
      </div>
    </details>
  )
}

interface ChoiceProps<T extends string> {
  readonly label: string
  readonly value: T | undefined
  readonly options: readonly T[]
  readonly nameOf: (option: T) => string
  /** the words for nothing chosen; without them something is always chosen */
  readonly none?: string
  readonly onChoose: (option: T | undefined) => void
}

function Choice<T extends string>({ label, value, options, nameOf, none, onChoose }: ChoiceProps<T>) {
  const choose: ComponentProps<'select'>['onChange'] = (event) =>
    onChoose(options.find((option) => option === event.target.value))
  return (
    <Field label={label}>
      {(control) => (
        <select {...control} value={value ?? ''} onChange={choose} disabled={options.length === 0}>
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

interface TextProps {
  readonly label: string
  readonly placeholder?: string
  readonly value: string
  readonly onWrite: (text: string) => void
}

function Text({ label, placeholder, value, onWrite }: TextProps) {
  return (
    <Field label={label}>
      {(control) => (
        <LiveText
          {...control}
          className={styles.text}
          rows={2}
          maxLength={textLimits.long}
          placeholder={placeholder}
          value={value}
          onWrite={onWrite}
        />
      )}
    </Field>
  )
}
