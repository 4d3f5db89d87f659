'use client'

import { type ReactNode, useState } from 'react'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import { type CaseForecast, optionKey, plannedOption } from './case-forecast.ts'
import type { OnWhy } from './figure.tsx'
import { OptionsChart } from './options-chart.tsx'
import { toggled } from './options-laid.ts'
import styles from './options-section.module.css'
import { inOrder, type OptionOrder, optionOrders } from './options-sort.ts'
import { OptionsTable } from './options-table.tsx'

interface OptionsSectionProps {
  readonly forecast: CaseForecast
  readonly test: HearingTest | undefined
  readonly lookedAt: string | undefined
  readonly onLook: (option: EarOption) => void
  readonly onChoose?: ((option: EarOption) => void) | undefined
  readonly onWhy: OnWhy
  /** stands at the end of the line above the table */
  readonly acts?: ReactNode
}

/** All options of the ear: their order, their numbers, and up to three of them on the audiogram. */
export function OptionsSection({ forecast, test, lookedAt, onLook, onChoose, onWhy, acts }: OptionsSectionProps) {
  const { forecast: words } = useMessages()
  const [order, setOrder] = useState<OptionOrder>('profiles')
  const [laid, setLaid] = useState<readonly string[]>([])
  const { plan, options, comparators } = forecast
  const planned = plan && plannedOption(plan, options)
  return (
    <div className={styles.section}>
      <div className={styles.bar}>
        <Field label={words.sort}>
          {(control) => (
            <select
              {...control}
              value={order}
              onChange={(event) => setOrder(optionOrders.find((each) => each === event.target.value) ?? 'profiles')}
            >
              {optionOrders.map((each) => (
                <option key={each} value={each}>
                  {words.sorts[each]}
                </option>
              ))}
            </select>
          )}
        </Field>
        {acts}
      </div>
      <OptionsTable
        options={inOrder(options, order)}
        comparators={comparators}
        acts={{
          lookedAt,
          planned: planned && optionKey(planned),
          laid,
          onLook,
          onLay: (key) => setLaid((before) => toggled(before, key)),
          onChoose,
        }}
        onWhy={onWhy}
      />
      <p className={styles.note}>{words.optionsOverlap}</p>
      {test !== undefined && <OptionsChart test={test} options={options} laid={laid} />}
    </div>
  )
}
