'use client'

import type { CSSProperties } from 'react'
import { Button } from '@/app/components/button.tsx'
import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { type ComparedOption, isSameOption } from '@/lib/forecast/comparison.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import type { FittingVerdict } from '@/lib/forecast/headroom.ts'
import type { Prediction } from '@/lib/forecast/prediction.ts'
import type { Option } from '@/lib/forecast/profiles.ts'
import { Absent, Figure, type OnWhy } from './figure.tsx'
import { optionText } from './option-text.ts'
import styles from './options-table.module.css'
import { shortRefusalText } from './refusal-text.ts'
import { useRovingCells } from './use-roving-cells.ts'

interface OptionsTableProps {
  readonly compared: readonly ComparedOption[]
  readonly planned: { readonly [F in keyof Option]?: Option[F] | undefined }
  readonly onWhy: OnWhy
  /** absent for those who may not change the plan */
  readonly onChoose?: ((option: Option) => void) | undefined
}

export const toneOf: Record<FittingVerdict, Tone> = { inside: 'good', depends: 'caution', outside: 'stop' }

/** Every class at every site for the same ear, in one table with the aided mean on a common scale. */
export function OptionsTable({ compared, planned, onWhy, onChoose }: OptionsTableProps) {
  const { forecast } = useMessages()
  const firstRow = compared.findIndex(({ outcome }) => outcome.ok)
  const { table, onKeyDown, cellAt } = useRovingCells({ row: firstRow, column: 0 })
  return (
    <table className={styles.table} ref={table} onKeyDown={onKeyDown}>
      <caption className={styles.caption}>
        {forecast.options} <span className={styles.captionNote}>{forecast.optionsHint}</span>
      </caption>
      <thead>
        <tr>
          <th scope="col">{forecast.option}</th>
          <th scope="col">
            {forecast.quantity.aidedThreshold}{' '}
            <span className={styles.captionNote}>{forecast.axisNote(axis.low, axis.high)}</span>
          </th>
          <th scope="col">{forecast.quantity.residualGap}</th>
          <th scope="col">{forecast.quantity.wordScore}</th>
          <th scope="col">{forecast.plan}</th>
        </tr>
      </thead>
      <tbody>
        {compared.map(({ option, outcome }, row) => {
          const isPlanned =
            planned.deviceClass !== undefined &&
            planned.couplingSite !== undefined &&
            isSameOption(option, { deviceClass: planned.deviceClass, couplingSite: planned.couplingSite })
          return (
            <tr key={`${option.deviceClass} ${option.couplingSite}`} data-planned={isPlanned}>
              <OptionHead option={option} outcome={outcome} />
              {outcome.ok ? (
                <OptionCells forecast={outcome.forecast} onWhy={onWhy} cellAt={(column) => cellAt(row, column)} />
              ) : (
                <Refused refusal={outcome.refusal} />
              )}
              <td className={styles.choice}>
                <Choice option={option} isPlanned={isPlanned} onChoose={onChoose} />
              </td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}

function Refused({ refusal }: { refusal: Parameters<typeof shortRefusalText>[0] }) {
  const { forecast, words } = useMessages()
  return (
    <td colSpan={3} className={styles.reason}>
      {shortRefusalText(refusal, forecast, words)}
    </td>
  )
}

function OptionHead({ option, outcome }: ComparedOption) {
  const { forecast, words } = useMessages()
  const fitting = outcome.ok ? outcome.forecast.fitting : undefined
  return (
    <th scope="row" className={styles.option}>
      <span className={styles.class}>{words.deviceClass[option.deviceClass]}</span>{' '}
      <span className={styles.site}>{words.couplingSite[option.couplingSite]}</span>
      {fitting !== undefined && <StateSign tone={toneOf[fitting]}>{forecast.verdictSign[fitting]}</StateSign>}
      {outcome.ok && outcome.forecast.concerns.length > 0 && <StateSign tone="caution">{forecast.concern}</StateSign>}
    </th>
  )
}

interface ChoiceProps {
  readonly option: Option
  readonly isPlanned: boolean
  readonly onChoose: OptionsTableProps['onChoose']
}

function Choice({ option, isPlanned, onChoose }: ChoiceProps) {
  const { forecast, words } = useMessages()
  if (isPlanned) return <StateSign tone="accent">{forecast.planned}</StateSign>
  if (onChoose === undefined) return null
  const name = optionText(option, undefined, forecast, words)
  return (
    <Button
      tone="quiet"
      className={styles.choose ?? ''}
      aria-label={forecast.chooseNamed(name)}
      onClick={() => onChoose(option)}
    >
      {forecast.choose}
    </Button>
  )
}

interface OptionCellsProps {
  readonly forecast: Forecast
  readonly onWhy: OnWhy
  readonly cellAt: (column: number) => ReturnType<ReturnType<typeof useRovingCells>['cellAt']>
}

function OptionCells({ forecast, onWhy, cellAt }: OptionCellsProps) {
  const { forecast: words, words: shared } = useMessages()
  const { fourTone, wordScores, option } = forecast
  const optionName = optionText(option, undefined, words, shared)
  const whatOf = (quantity: string) => `${quantity}, ${optionName}`
  return (
    <>
      <td data-label={words.quantityShort.aidedThreshold}>
        <span className={styles.aided}>
          <Figure
            what={whatOf(words.quantity.aidedThreshold)}
            unit={words.unit.threshold}
            prediction={fourTone.aidedThreshold}
            onWhy={onWhy}
            cell={cellAt(0)}
          />
          <IntervalBar prediction={fourTone.aidedThreshold} />
        </span>
      </td>
      <td data-label={words.quantityShort.residualGap}>
        <Figure
          what={whatOf(words.quantity.residualGap)}
          unit={words.unit.gain}
          prediction={fourTone.residualGap}
          onWhy={onWhy}
          cell={cellAt(1)}
        />
      </td>
      <td data-label={words.quantityShort.wordScore}>
        {wordScores.length === 0 && <Absent reason={words.absence['no-published-word-score']} />}
        {wordScores.map(({ variant, score }, index) => (
          <span key={variant} className={styles.score}>
            <Figure
              what={whatOf([words.quantity.wordScore, words.variant[variant]].filter(Boolean).join(', '))}
              unit={words.unit.score}
              prediction={score}
              onWhy={onWhy}
              showUnit
              cell={cellAt(2 + index)}
            />
            {wordScores.length > 1 && <span className={styles.variant}>{words.variant[variant]}</span>}
          </span>
        ))}
      </td>
    </>
  )
}

/** Common scale of the bars, dB HL. */
const axis = { low: 0, high: 100 } as const

const onAxis = (value: number): string =>
  `${(100 * (Math.min(axis.high, Math.max(axis.low, value)) - axis.low)) / (axis.high - axis.low)}%`

function IntervalBar({ prediction }: { prediction: Prediction }) {
  if (prediction.kind !== 'estimate') return null
  const { low, high } = prediction.interval
  const place = { '--low': onAxis(low), '--high': onAxis(high), '--value': onAxis(prediction.value) } as CSSProperties
  return (
    <span className={styles.bar} style={place} aria-hidden="true">
      <span className={styles.range} />
      <span className={styles.middle} />
    </span>
  )
}
