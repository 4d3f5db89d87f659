'use client'

import { useMessages } from '@/app/messages/for-forecast.ts'
import type { FrequencyForecast } from '@/lib/forecast/at-frequency.ts'
import type { Headroom } from '@/lib/forecast/headroom.ts'
import { Figure, type OnWhy, WeakMark, WhyButton } from './figure.tsx'
import { headroomText } from './figure-words.ts'
import styles from './frequency-table.module.css'
import { useRovingCells } from './use-roving-cells.ts'

interface FrequencyTableProps {
  readonly byFrequency: readonly FrequencyForecast[]
  readonly onWhy: OnWhy | undefined
}

const quantities = ['aidedThreshold', 'effectiveGain', 'residualGap', 'functionalGain'] as const

export function FrequencyTable({ byFrequency, onWhy }: FrequencyTableProps) {
  const { forecast } = useMessages()
  const firstRow = byFrequency.findIndex(({ aidedThreshold }) => aidedThreshold.kind !== 'absent')
  const { table, onKeyDown, cellAt } = useRovingCells({ row: firstRow, column: 0 })
  return (
    <table className={styles.table} ref={table} onKeyDown={onKeyDown}>
      <caption className={styles.caption}>
        {forecast.byFrequency}{' '}
        <span className={styles.captionNote}>{`${forecast.intervalNote}. ${forecast.gridHelp}`}</span>
      </caption>
      <thead>
        <tr>
          <th scope="col">{forecast.frequency}</th>
          {quantities.map((name) => (
            <Heading key={name} name={name} unit={name === 'aidedThreshold' ? 'threshold' : 'gain'} />
          ))}
          <Heading name="headroom" unit="gain" />
        </tr>
      </thead>
      <tbody>
        {byFrequency.map((at, row) => (
          <Row key={at.frequency} at={at} onWhy={onWhy} cellAt={(column) => cellAt(row, column)} />
        ))}
      </tbody>
    </table>
  )
}

function Heading({ name, unit }: { name: (typeof quantities)[number] | 'headroom'; unit: 'threshold' | 'gain' }) {
  const { forecast } = useMessages()
  return (
    <th scope="col" title={forecast.quantityHint[name]}>
      {forecast.quantity[name]} <span className={styles.unit}>{forecast.unit[unit]}</span>
    </th>
  )
}

interface RowProps {
  readonly at: FrequencyForecast
  readonly onWhy: OnWhy | undefined
  readonly cellAt: (column: number) => ReturnType<ReturnType<typeof useRovingCells>['cellAt']>
}

function Row({ at, onWhy, cellAt }: RowProps) {
  const { forecast } = useMessages()
  const hertz = forecast.hertz(at.frequency)
  const absent = at.aidedThreshold.kind === 'absent' ? at.aidedThreshold.reason : undefined
  return (
    <tr data-absent={absent !== undefined}>
      <th scope="row">{hertz}</th>
      {absent === undefined ? (
        quantities.map((name, column) => (
          <td key={name} data-label={forecast.quantityShort[name]}>
            <Figure
              what={forecast.why.atFrequency(forecast.quantity[name], hertz)}
              unit={name === 'aidedThreshold' ? forecast.unit.threshold : forecast.unit.gain}
              prediction={at[name]}
              onWhy={onWhy}
              cell={cellAt(column)}
            />
          </td>
        ))
      ) : (
        <td colSpan={quantities.length} className={styles.reason}>
          {forecast.absence[absent]}
        </td>
      )}
      <td data-label={forecast.quantityShort.headroom} hidden={at.headroom.length === 0 && absent !== undefined}>
        {at.headroom.map((headroom, index) => (
          <HeadroomFigure
            key={headroom.output}
            what={forecast.why.atFrequency(forecast.quantity.headroom, hertz)}
            headroom={headroom}
            named={at.headroom.length > 1}
            onWhy={onWhy}
            cell={cellAt(quantities.length + index)}
          />
        ))}
      </td>
    </tr>
  )
}

interface HeadroomFigureProps {
  readonly what: string
  readonly headroom: Headroom
  readonly named: boolean
  readonly onWhy: OnWhy | undefined
  readonly cell: ReturnType<ReturnType<typeof useRovingCells>['cellAt']>
}

function HeadroomFigure({ what, headroom, named, onWhy, cell }: HeadroomFigureProps) {
  const { forecast, words } = useMessages()
  const text = headroomText(headroom, forecast)
  const output = forecast.output[headroom.output] ?? headroom.output
  const subject = { what: `${what}, ${output}`, unit: forecast.unit.gain, result: `${text} dB`, basis: headroom.basis }
  const verdict = forecast.verdictShort[headroom.verdict]
  return (
    <WhyButton spoken={`${text} dB, ${verdict}`} subject={subject} onWhy={onWhy} cell={cell}>
      <span className={styles.headroom} data-verdict={headroom.verdict}>
        {text}
        <WeakMark basis={headroom.basis} />
      </span>
      <span className={styles.verdict} data-verdict={headroom.verdict}>
        {named ? words.labelled(output, verdict) : verdict}
      </span>
    </WhyButton>
  )
}
