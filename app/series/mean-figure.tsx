'use client'

import { useMessages } from '@/app/messages/for-series.ts'
import type { SeriesAnswer } from '@/lib/interchange/series.ts'
import { Figure } from './figure.tsx'
import { frequencyTicks, frequencyX } from './frequency-axis.ts'
import { MeanCells, MeanHeads } from './mean-cell.tsx'
import styles from './mean-figure.module.css'
import { Plot, upwards } from './plot.tsx'

type Audiograms = SeriesAnswer['audiograms']

/** Hearing gets worse downwards, as in every audiogram. */
const level = upwards(120, -10)
const ticks = [0, 20, 40, 60, 80, 100, 120]
/** Curves stand a little beside each other, so that their intervals can be told apart. */
const asideOf = [-6, -2, 2, 6]

export function MeanFigure({ audiograms }: { readonly audiograms: Audiograms }) {
  const { series, words } = useMessages()
  const silent = audiograms.flatMap(({ route, byFrequency }) => {
    const n = byFrequency.reduce((sum, { noResponse }) => sum + noResponse, 0)
    return n === 0 ? [] : [words.labelled(series.routes[route], String(n))]
  })
  const last = audiograms.find(({ route }) => route === 'aided-after')?.byFrequency.at(-1)
  return (
    <Figure
      title={series.audiogram.title}
      name="mean-audiogram"
      note={series.audiogram.note}
      remarks={
        <>
          <Legend audiograms={audiograms} />
          {silent.length > 0 && <p>{words.labelled(series.noResponse, silent.join(', '))}.</p>}
          {last !== undefined && last.missing > 0 && (
            <p>
              {words.labelled(
                `${series.kiloHertzUnit(last.frequency)}, ${series.routes['aided-after'].toLowerCase()}`,
                `${series.ears(last.n)}, ${series.missing.toLowerCase()} ${last.missing}`,
              )}
              .
            </p>
          )}
        </>
      }
      chart={<Chart audiograms={audiograms} />}
      table={<MeanTable audiograms={audiograms} />}
    />
  )
}

function Legend({ audiograms }: { readonly audiograms: Audiograms }) {
  const { series } = useMessages()
  return (
    <ul className={styles.legend}>
      {audiograms.map(({ route }) => (
        <li key={route}>
          <svg className={styles.key} viewBox="0 0 36 12" aria-hidden="true">
            <g className={styles.curve} data-route={route}>
              <path className={styles.line} d="M2 6H34" />
              <Mark route={route} x={18} y={6} />
            </g>
          </svg>
          {series.routes[route]}
        </li>
      ))}
    </ul>
  )
}

function Chart({ audiograms }: { readonly audiograms: Audiograms }) {
  const { series } = useMessages()
  return (
    <Plot
      x={{ label: series.axis.frequency, ticks: frequencyTicks(series.kiloHertz) }}
      y={{ label: series.axis.level, scale: level, ticks, textOf: series.whole }}
    >
      {audiograms.map(({ route, byFrequency }, index) => {
        const aside = asideOf[index] ?? 0
        const means = byFrequency.flatMap(({ frequency, mean, low, high }) =>
          mean === null ? [] : [{ x: frequencyX(frequency) + aside, mean, low, high }],
        )
        return (
          <g key={route} className={styles.curve} data-route={route}>
            {means.length > 1 && (
              <path className={styles.line} d={`M${means.map(({ x, mean }) => `${x} ${level(mean)}`).join('L')}`} />
            )}
            {means.map(({ x, mean, low, high }) => (
              <g key={x}>
                {low !== null && high !== null && (
                  <path className={styles.interval} d={`M${x} ${level(low)}V${level(high)}`} />
                )}
                <Mark route={route} x={x} y={level(mean)} />
              </g>
            ))}
          </g>
        )
      })}
    </Plot>
  )
}

/** A sign of its own for each curve, so that colour is never the only one. */
function Mark({
  route,
  x,
  y,
}: {
  readonly route: Audiograms[number]['route']
  readonly x: number
  readonly y: number
}) {
  switch (route) {
    case 'air-before':
      return <circle className={styles.open} cx={x} cy={y} r={4} />
    case 'bone-before':
      return <path className={styles.open} d={`M${x + 3} ${y - 4}L${x - 3} ${y}L${x + 3} ${y + 4}`} />
    case 'aided-after':
      return <rect className={styles.full} x={x - 4} y={y - 4} width={8} height={8} />
    case 'bone-after':
      return <path className={styles.full} d={`M${x} ${y - 5}L${x + 5} ${y + 4}H${x - 5}Z`} />
  }
}

function MeanTable({ audiograms }: { readonly audiograms: Audiograms }) {
  const { series } = useMessages()
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{series.audiogram.route}</th>
          <th scope="col">{series.frequency}</th>
          <MeanHeads />
          <th scope="col">{series.noResponse}</th>
          <th scope="col">{series.missing}</th>
        </tr>
      </thead>
      <tbody>
        {audiograms.flatMap(({ route, byFrequency }) =>
          byFrequency.map((at) => (
            <tr key={`${route} ${at.frequency}`}>
              <th scope="row">{series.routes[route]}</th>
              <td>{series.kiloHertzUnit(at.frequency)}</td>
              <MeanCells of={at} />
              <td>{at.noResponse}</td>
              <td>{at.missing}</td>
            </tr>
          )),
        )}
      </tbody>
    </table>
  )
}
