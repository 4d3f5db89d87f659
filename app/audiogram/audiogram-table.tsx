import { useMessages } from '@/app/messages/use-messages.ts'
import { type HearingTest, type Point, type PointRoute, pointKey, routesOf } from '@/lib/board/records/hearing-test.ts'
import { audiometricFrequenciesHz, type FrequencyHz } from '@/lib/units/frequencies.ts'
import styles from './audiogram-table.module.css'
import { isOffGrid } from './geometry.ts'
import { levelOf } from './layers.ts'

interface AudiogramTableProps {
  /** referenced by the chart's `describedBy` */
  readonly id: string
  /** which test, in words */
  readonly what: string
  readonly test: Pick<HearingTest, 'condition' | 'points' | 'repeatAt1000'>
  /** not seen, but read out with the chart */
  readonly hidden?: boolean
}

/** The numbers of the chart as a table: a row for each route and masking that has a point, a column a frequency. */
export function AudiogramTable({ id, what, test, hidden = false }: AudiogramTableProps) {
  const { audiogram } = useMessages()
  const rows = rowsOf(test)
  const frequencies = columnsOf(test)
  return (
    <section
      className={styles.scroll}
      data-hidden={hidden}
      id={id}
      tabIndex={hidden ? -1 : 0}
      aria-label={audiogram.table.caption(what)}
    >
      {rows.length === 0 ? (
        <p>{audiogram.table.empty}</p>
      ) : (
        <table className={styles.table}>
          <caption>{audiogram.table.caption(what)}</caption>
          <thead>
            <tr>
              <th scope="col">{audiogram.table.route}</th>
              {frequencies.map((hz) => (
                <th key={hz} scope="col">
                  {hz} {audiogram.frequencyUnit}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ route, masked }) => (
              <tr key={`${route}.${masked}`}>
                <th scope="row">{audiogram.table.row(route, masked)}</th>
                {frequencies.map((frequency) => (
                  <ThresholdCell key={frequency} point={test.points[pointKey({ route, masked, frequency })]} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {test.repeatAt1000 !== undefined && <p>{audiogram.table.repeat(test.repeatAt1000)}</p>}
    </section>
  )
}

function ThresholdCell({ point }: { point: Point | undefined }) {
  const { audiogram } = useMessages()
  const level = point === undefined ? undefined : levelOf(point)
  const offGrid = level !== undefined && isOffGrid(level)
  return (
    <td data-off-grid={offGrid} title={offGrid ? audiogram.table.offGrid : undefined}>
      {pointInTable(point, audiogram.table)}
    </td>
  )
}

type TableWords = ReturnType<typeof useMessages>['audiogram']['table']

function pointInTable(point: Point | undefined, words: TableWords): string {
  if (point === undefined) return words.notTested
  switch (point.kind) {
    case 'heard':
      return String(point.level).replace('-', '−')
    case 'no-response':
      return words.noResponse(point.limit)
    case 'could-not-test':
      return words.couldNotTest
    default:
      return point satisfies never
  }
}

interface TableRow {
  readonly route: PointRoute
  readonly masked: boolean
}

function rowsOf({ condition, points }: AudiogramTableProps['test']): TableRow[] {
  const keys = Object.keys(points)
  return routesOf[condition]
    .flatMap((route) => [false, true].map((masked) => ({ route, masked })))
    .filter(({ route, masked }) => keys.some((key) => key.startsWith(`${route}.${masked ? 'masked' : 'unmasked'}.`)))
}

/** Octaves from 250 Hz to 8 kHz always, any other frequency when something stands there. */
function columnsOf({ points }: AudiogramTableProps['test']): FrequencyHz[] {
  const always: readonly number[] = [250, 500, 1000, 2000, 4000, 8000]
  const tested = new Set(Object.keys(points).map((key) => Number(key.split('.')[2])))
  return audiometricFrequenciesHz.filter((hz) => always.includes(hz) || tested.has(hz))
}
