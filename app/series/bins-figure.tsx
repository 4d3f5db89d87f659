'use client'

import { useMessages } from '@/app/messages/for-series.ts'
import type { SeriesAnswer } from '@/lib/interchange/series.ts'
import styles from './bars.module.css'
import { Figure } from './figure.tsx'
import { across, box, Plot, upwards } from './plot.tsx'

type Bins = SeriesAnswer['bins']
type Share = Bins['innerEarLoss']

const scale = upwards(0, 100)
const ticks = [0, 25, 50, 75, 100]

const shareOf = ({ count, total }: Share): number => (total === 0 ? 0 : count / total)

/** How many ears lie in which bin of the reporting standard. */
export function BinsFigure({ bins }: { readonly bins: Bins }) {
  const { series, words: shared } = useMessages()
  const words = series.bins
  const total = bins.bins[0]?.total ?? 0
  return (
    <Figure
      title={words.title}
      name="reporting-bins"
      note={words.note}
      remarks={
        <>
          <p>
            {series.ears(total)}. {bins.missing > 0 && words.missing(bins.missing)}{' '}
            {bins.undecided > 0 && words.undecided(bins.undecided)}
          </p>
          <p>
            {shared.labelled(words.inner, words.of(bins.innerEarLoss.count, bins.innerEarLoss.total))}.{' '}
            {shared.labelled(series.missing, String(bins.boneMissing))}.
          </p>
        </>
      }
      chart={<Chart bins={bins} />}
      table={
        <table>
          <thead>
            <tr>
              <th scope="col">{words.bin}</th>
              <th scope="col">{series.n}</th>
              <th scope="col">{words.share}</th>
              <th scope="col">{series.interval}</th>
            </tr>
          </thead>
          <tbody>
            {bins.bins.map((each) => (
              <Row key={each.bin} name={words.bins[each.bin]} of={each} />
            ))}
            <Row name={words.inner} of={bins.innerEarLoss} />
          </tbody>
        </table>
      }
    />
  )
}

function Row({ name, of }: { readonly name: string; readonly of: Share }) {
  const { series } = useMessages()
  const { count, total, low, high } = of
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{series.bins.of(count, total)}</td>
      <td>{total === 0 ? series.none : series.percent(shareOf(of))}</td>
      <td>{low === null || high === null ? series.none : `${series.percent(low)} – ${series.percent(high)}`}</td>
    </tr>
  )
}

function Chart({ bins }: { readonly bins: Bins }) {
  const { series } = useMessages()
  const width = (box.width - box.left - box.right) / bins.bins.length
  return (
    <Plot
      x={{
        label: series.bins.bin,
        ticks: bins.bins.map(({ bin }, index) => ({
          at: across((index + 0.5) / bins.bins.length),
          text: series.bins.bins[bin],
        })),
      }}
      y={{ label: '%', scale, ticks, textOf: series.whole }}
    >
      {bins.bins.map((each, index) => {
        const x = across((index + 0.5) / bins.bins.length)
        const top = scale(100 * shareOf(each))
        const { low, high } = each
        return (
          <g key={each.bin}>
            <rect className={styles.bar} x={x - width / 4} y={top} width={width / 2} height={scale(0) - top} />
            {low !== null && high !== null && (
              <path className={styles.whisker} d={`M${x} ${scale(100 * low)}V${scale(100 * high)}`} />
            )}
          </g>
        )
      })}
    </Plot>
  )
}
