import { useMessages } from '@/app/messages/for-forecast.ts'
import type { Comparator } from '@/lib/forecast/comparators.ts'
import { Figure, type OnWhy } from './figure.tsx'
import { FigureLine } from './figure-line.tsx'
import { IntervalBar } from './interval-bar.tsx'
import type { CellAt } from './option-row.tsx'
import styles from './options-table.module.css'

interface ComparatorRowProps {
  readonly comparator: Comparator
  readonly onWhy: OnWhy
  readonly cellAt: CellAt
}

/** What an option is held against: nothing done, or a conventional aid. */
export function ComparatorRow({ comparator, onWhy, cellAt }: ComparatorRowProps) {
  const { forecast: words } = useMessages()
  const name = words.comparator[comparator.id]
  return (
    <tr>
      <th scope="row" className={styles.option}>
        <span className={styles.site}>{name}</span>
        {comparator.id === 'air-conduction-aid' && <span className={styles.class}>{words.comparatorNote}</span>}
      </th>
      {comparator.ok ? (
        <>
          <td className={styles.aided}>
            <Figure
              what={`${words.fourTone}, ${name}`}
              unit={words.unit.threshold}
              prediction={comparator.forecast.meanThreshold}
              onWhy={onWhy}
              showUnit
              cell={cellAt(0)}
            />
            <IntervalBar prediction={comparator.forecast.meanThreshold} />
          </td>
          <td className={styles.empty} />
          <td className={styles.lines}>
            {comparator.forecast.speech.map(({ condition, index }, place) => (
              <FigureLine
                key={condition}
                label={words.lines[condition]}
                what={`${words.speechFull[condition]}, ${name}`}
                unit={words.unit.index}
                prediction={index}
                spell={words.hundredth}
                onWhy={onWhy}
                cell={cellAt(4 + place)}
              />
            ))}
          </td>
        </>
      ) : (
        <td colSpan={3} className={styles.reason}>
          {words.comparatorRefused[comparator.reason]}
        </td>
      )}
    </tr>
  )
}
