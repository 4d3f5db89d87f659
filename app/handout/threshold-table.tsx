'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import { type HearingTest, type Point, type PointRoute, pointKey, routesOf } from '@/lib/board/records/hearing-test.ts'
import { audiometricFrequenciesHz, type FrequencyHz } from '@/lib/units/frequencies.ts'
import styles from './threshold-table.module.css'

interface ThresholdTableProps {
  /** referenced by the chart's `describedBy` */
  readonly id: string
  readonly test: Pick<HearingTest, 'condition' | 'points'>
}

/** The numbers of the chart, narrow enough for all frequencies to stand side by side on paper, which does not scroll. */
export function ThresholdTable({ id, test }: ThresholdTableProps) {
  const { screens } = useMessages()
  const { thresholds } = screens.handout
  const frequencies = testedFrequencies(test)
  if (frequencies.length === 0) return <p id={id}>{thresholds.empty}</p>
  return (
    <table className={styles.table} id={id}>
      <caption>{thresholds.caption}</caption>
      <thead>
        <tr>
          <th scope="col">{thresholds.frequency}</th>
          {frequencies.map((hz) => (
            <th key={hz} scope="col">
              {hz}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {testedRows(test).map(({ route, masked }) => (
          <tr key={`${route}.${masked}`}>
            <th scope="row">{thresholds.row(route, masked)}</th>
            {frequencies.map((frequency) => (
              <Cell key={frequency} point={test.points[pointKey({ route, masked, frequency })]} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Cell({ point }: { point: Point | undefined }) {
  const { thresholds } = useMessages().screens.handout
  if (point === undefined) return <td>{thresholds.notTested}</td>
  switch (point.kind) {
    case 'heard':
      return <td>{thresholds.heard(point.level)}</td>
    case 'no-response':
      return <td>{thresholds.noResponse(point.limit)}</td>
    case 'could-not-test':
      return <td>{thresholds.couldNotTest}</td>
    default:
      return point satisfies never
  }
}

interface Row {
  readonly route: PointRoute
  readonly masked: boolean
}

/** Routes and maskings that have a point at all. */
function testedRows({ condition, points }: ThresholdTableProps['test']): Row[] {
  return routesOf[condition]
    .flatMap((route) => [false, true].map((masked): Row => ({ route, masked })))
    .filter((row) =>
      audiometricFrequenciesHz.some((frequency) => points[pointKey({ ...row, frequency })] !== undefined),
    )
}

function testedFrequencies(test: ThresholdTableProps['test']): FrequencyHz[] {
  const rows = testedRows(test)
  return audiometricFrequenciesHz.filter((frequency) =>
    rows.some((row) => test.points[pointKey({ ...row, frequency })] !== undefined),
  )
}
