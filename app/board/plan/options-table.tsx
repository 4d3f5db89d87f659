'use client'

import { useMessages } from '@/app/messages/for-forecast.ts'
import type { Comparator } from '@/lib/forecast/comparators.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import { optionKey } from './case-forecast.ts'
import type { OnWhy } from './figure.tsx'
import { barAxis } from './interval-bar.tsx'
import { ComparatorRow } from './option-comparator.tsx'
import { OptionRow } from './option-row.tsx'
import styles from './options-table.module.css'
import { useRovingCells } from './use-roving-cells.ts'

export interface OptionActs {
  /** key of the option whose forecast is shown above */
  readonly lookedAt: string | undefined
  readonly planned: string | undefined
  /** keys of the options on the chart, in the order of their letters */
  readonly laid: readonly string[]
  readonly onLook: (option: EarOption) => void
  readonly onLay: (key: string) => void
  /** absent for those who may not change the plan */
  readonly onChoose?: ((option: EarOption) => void) | undefined
}

interface OptionsTableProps {
  readonly options: readonly EarOption[]
  readonly comparators: readonly Comparator[]
  readonly acts: OptionActs
  readonly onWhy: OnWhy
}

/** Every class at every site for the same ear, in one table with the aided mean on a common scale. */
export function OptionsTable({ options, comparators, acts, onWhy }: OptionsTableProps) {
  const { forecast } = useMessages()
  const firstRow = Math.max(
    0,
    options.findIndex(({ outcome }) => outcome.ok),
  )
  const { table, onKeyDown, cellAt } = useRovingCells({ row: firstRow, column: 0 })
  return (
    <table className={styles.table} ref={table} onKeyDown={onKeyDown}>
      <caption className={styles.caption}>
        {forecast.options}{' '}
        <span className={styles.note}>
          {`${forecast.optionsHint} ${forecast.axisNote(barAxis.low, barAxis.high)}; ${forecast.barNote}.`}
        </span>
      </caption>
      <thead>
        <tr>
          <th scope="col">{forecast.option}</th>
          <th scope="col">
            {forecast.quantity.aidedThreshold}, {forecast.unit.threshold}{' '}
            <span
              className={styles.note}
            >{`${forecast.axisNote(barAxis.low, barAxis.high)}; ${forecast.barNote}`}</span>
          </th>
          <th scope="col">
            {forecast.gains}, {forecast.unit.gain}
          </th>
          <th scope="col">{forecast.speechColumn}</th>
        </tr>
      </thead>
      <tbody>
        {options.map((option, row) => (
          <OptionRow
            key={optionKey(option)}
            option={option}
            acts={acts}
            onWhy={onWhy}
            cellAt={(column) => cellAt(row, column)}
          />
        ))}
      </tbody>
      {comparators.length > 0 && (
        <tbody className={styles.comparators}>
          <tr>
            <th scope="colgroup" colSpan={4} className={styles.group}>
              {forecast.comparators}
            </th>
          </tr>
          {comparators.map((comparator, index) => (
            <ComparatorRow
              key={comparator.id}
              comparator={comparator}
              onWhy={onWhy}
              cellAt={(column) => cellAt(options.length + index, column)}
            />
          ))}
        </tbody>
      )}
    </table>
  )
}
