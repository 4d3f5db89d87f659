'use client'

import type { CSSProperties, ReactNode } from 'react'
import { Dialog } from '@/app/components/dialog.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { BasisInput, Share } from '@/lib/forecast/prediction.ts'
import type { Spell, WhySubject } from './figure-words.ts'
import styles from './why.module.css'
import { Sources } from './why-sources.tsx'

interface WhyDialogProps {
  readonly subject: WhySubject | undefined
  readonly onClose: () => void
}

/** Opens what stands behind one number. */
export default function WhyDialog({ subject, onClose }: WhyDialogProps) {
  const { forecast } = useMessages()
  return (
    <Dialog open={subject !== undefined} onClose={onClose} title={subject ? forecast.why.title(subject.what) : ''} wide>
      {subject !== undefined && <Why subject={subject} />}
    </Dialog>
  )
}

/** Result, formula, what went in, what makes it unsure, and the sources with their status. */
export function Why({ subject }: { subject: WhySubject }) {
  const { forecast } = useMessages()
  const { why } = forecast
  const { basis, interval, interval50, result, unit, spell = forecast.decimal } = subject
  return (
    <div className={styles.why}>
      <p className={styles.result}>
        <strong>{result}</strong>{' '}
        {interval50 !== undefined && `${why.interval50(spell(interval50.low), spell(interval50.high))}, `}
        {interval !== undefined && why.interval(spell(interval.low), spell(interval.high))}
        {interval === undefined && basis.formula !== 'headroom' && why.noInterval}
      </p>
      <Part title={why.formulaTitle}>
        <p>{why.formula[basis.formula]}</p>
      </Part>
      <Part title={why.inputsTitle}>
        <Inputs inputs={basis.inputs} />
      </Part>
      {basis.shares.length > 0 && (
        <Part title={why.sharesTitle}>
          <Shares
            shares={basis.shares}
            unit={unit === forecast.unit.threshold ? forecast.unit.gain : unit}
            spell={spell}
          />
        </Part>
      )}
      {basis.remarks.length > 0 && (
        <Part title={why.remarksTitle}>
          <ul className={styles.list}>
            {basis.remarks.map((remark) => (
              <li key={remark}>{why.remark[remark]}</li>
            ))}
          </ul>
        </Part>
      )}
      <Part title={why.sourcesTitle}>
        <Sources sources={basis.sources} />
      </Part>
    </div>
  )
}

function Part({ title, children }: { title: string; children: ReactNode }) {
  return (
    <section className={styles.part}>
      <h3 className={styles.title}>{title}</h3>
      {children}
    </section>
  )
}

function Inputs({ inputs }: { inputs: readonly BasisInput[] }) {
  const { forecast } = useMessages()
  const { why } = forecast
  return (
    <table className={styles.inputs}>
      <thead>
        <tr>
          <th scope="col">{why.inputName}</th>
          <th scope="col">{why.inputValue}</th>
          <th scope="col">{why.inputSd}</th>
          <th scope="col">{why.inputN}</th>
        </tr>
      </thead>
      <tbody>
        {inputs.map((input) => (
          <tr key={`${input.name} ${input.frequency}`}>
            <th scope="row">
              {input.frequency === undefined
                ? why.input[input.name]
                : why.atFrequency(why.input[input.name], forecast.hertz(input.frequency))}
            </th>
            <td>
              <InputValue input={input} />
            </td>
            <td>{input.sd === undefined ? forecast.none : forecast.valueWithUnit(input.sd, 'dB')}</td>
            <td>{input.n ?? (input.name === 'published-gain' ? why.notKnown : forecast.none)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function InputValue({ input }: { input: BasisInput }) {
  const { forecast } = useMessages()
  const unit = forecast.why.unit[input.unit]
  if (typeof input.value !== 'number') return forecast.rangeWithUnit(input.value.low, input.value.high, unit)
  const value = forecast.valueWithUnit(input.value, unit)
  return input.censored ? forecast.why.noResponse(value) : value
}

interface SharesProps {
  readonly shares: readonly Share[]
  readonly unit: string
  readonly spell: Spell
}

function Shares({ shares, unit, spell }: SharesProps) {
  const { forecast } = useMessages()
  return (
    <ul className={styles.shares}>
      {shares.map(({ cause, part, sd }) => (
        <li key={cause} className={styles.share} style={{ '--part': `${100 * part}%` } as CSSProperties}>
          <span className={styles.cause}>{forecast.why.cause[cause]}</span>
          <span className={styles.part}>{forecast.why.share(part, spell(sd), unit)}</span>
        </li>
      ))}
    </ul>
  )
}
