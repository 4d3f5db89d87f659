'use client'

import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { CloseIcon } from '@/app/components/icons.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { EarChanges } from '@/lib/board/records/plan.ts'
import type { EarChange } from '@/lib/devices/ear-changes.ts'
import { changesSuggestedBy } from '@/lib/forecast/findings.ts'
import { changeInWords } from './change-in-words.ts'
import styles from './found-field.module.css'
import type { PlanFields } from './plan-form.tsx'

interface FoundFieldProps {
  readonly plan: PlanFields
  readonly onChange: (changes: EarChanges) => void
}

/** Findings that can be entered as they stand; what is in between is for the sliders of "what if". */
const offered: readonly EarChange[] = [
  { kind: 'ligament-stiffened', ligament: 'malleus', times: 10 },
  { kind: 'ligament-stiffened', ligament: 'malleus', times: 100 },
  { kind: 'ligament-fixed', ligament: 'malleus' },
  { kind: 'ligament-stiffened', ligament: 'incus', times: 10 },
  { kind: 'ligament-fixed', ligament: 'incus' },
  { kind: 'ligament-stiffened', ligament: 'malleus-and-incus', times: 100 },
  { kind: 'ligament-fixed', ligament: 'malleus-and-incus' },
  { kind: 'ligament-stiffened', ligament: 'annular', times: 10 },
  { kind: 'ligament-stiffened', ligament: 'annular', times: 100 },
  { kind: 'joint-slack', joint: 'malleus-incus', factor: 0.1 },
  { kind: 'joint-slack', joint: 'incus-stapes', factor: 0.1 },
  { kind: 'incus-stapes-apart' },
  { kind: 'incus-missing' },
  { kind: 'stapes-superstructure-missing' },
  { kind: 'cavity-open' },
  { kind: 'eardrum-absent' },
  { kind: 'contact-loss', lossDb: 5, sdDb: 3 },
  { kind: 'contact-loss', lossDb: 10, sdDb: 5 },
]
/** As many as a plan takes. */
const most = 12

const same = (a: EarChange, b: EarChange): boolean => JSON.stringify(a) === JSON.stringify(b)

/** In what the ear differs, for the model: entered one by one, or taken over from the states of the ossicles. */
export function FoundField({ plan, onChange }: FoundFieldProps) {
  const { whatIf } = useMessages()
  const { found: words, finding } = whatIf
  const found = plan.earChanges ?? []
  const suggested = changesSuggestedBy(plan).filter((change) => !found.some((own) => same(own, change)))
  const left = offered.filter((change) => !found.some((own) => same(own, change)))
  return (
    <fieldset className={styles.found}>
      <legend className={styles.legend}>{words.title}</legend>
      <p className={styles.hint}>{found.length === 0 ? words.hint : whatIf.loss.hint}</p>
      <ul className={styles.list}>
        {found.map((change, index) => (
          <li key={JSON.stringify(change)} className={styles.item}>
            {changeInWords(change, finding)}
            <IconButton
              label={words.remove(changeInWords(change, finding))}
              onClick={() => onChange(found.filter((_, other) => other !== index))}
            >
              <CloseIcon />
            </IconButton>
          </li>
        ))}
      </ul>
      {found.length < most && (
        <div className={styles.add}>
          <Field label={words.add}>
            {(control) => (
              <select
                {...control}
                value=""
                onChange={(event) => {
                  const change = left[Number(event.target.value)]
                  if (change !== undefined) onChange([...found, change])
                }}
              >
                <option value="">{words.choose}</option>
                {left.map((change, index) => (
                  <option key={JSON.stringify(change)} value={index}>
                    {changeInWords(change, finding)}
                  </option>
                ))}
              </select>
            )}
          </Field>
          {suggested.length > 0 && (
            <Button onClick={() => onChange([...found, ...suggested].slice(0, most))}>
              {words.suggest(suggested.map((change) => changeInWords(change, finding)))}
            </Button>
          )}
        </div>
      )}
    </fieldset>
  )
}
