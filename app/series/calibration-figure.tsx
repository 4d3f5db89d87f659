'use client'

import { useMessages } from '@/app/messages/for-series.ts'
import type { SeriesAnswer } from '@/lib/interchange/series.ts'
import styles from './bars.module.css'
import { Figure } from './figure.tsx'
import { across, box, Plot, upwards } from './plot.tsx'

type Calibration = SeriesAnswer['calibration']

/** Whether sealed forecasts keep what they promise, and whether they say more than the series alone would. */
export function CalibrationFigure({ calibration }: { readonly calibration: Calibration }) {
  const { series } = useMessages()
  const words = series.calibration
  const { n, notSealed, notScored, score } = calibration
  return (
    <Figure
      title={words.title}
      name="calibration"
      note={`${words.note} ${words.scoreHint}`}
      remarks={
        <>
          <p>
            {series.ears(n)}. {words.missing(notSealed, notScored)}
          </p>
          {n === 0 ? <p>{words.nothing}</p> : n < 5 && <p>{series.few(n)}</p>}
          {score !== null && <p>{verdict(score.gain, words)}</p>}
        </>
      }
      chart={n === 0 ? null : <Chart tenths={calibration.tenths} />}
      table={<CalibrationTable calibration={calibration} />}
    />
  )
}

function verdict(
  { low, high }: NonNullable<Calibration['score']>['gain'],
  words: { readonly better: string; readonly worse: string; readonly cannotTell: string },
): string {
  if (low > 0) return words.better
  return high < 0 ? words.worse : words.cannotTell
}

function Chart({ tenths }: { readonly tenths: readonly number[] }) {
  const { series } = useMessages()
  const total = tenths.reduce((sum, n) => sum + n, 0)
  // A multiple of four, so that half of it is a whole number of results too.
  const top = Math.max(4, Math.ceil(Math.max(...tenths, total / 10) / 4) * 4)
  const scale = upwards(0, top)
  const width = (box.width - box.left - box.right) / tenths.length
  const even = scale(total / 10)
  return (
    <Plot
      x={{
        label: series.calibration.tenth,
        ticks: tenths.map((_, index) => ({ at: across((index + 0.5) / tenths.length), text: String(index + 1) })),
      }}
      y={{ label: series.calibration.results, scale, ticks: [0, top / 2, top], textOf: String }}
    >
      {tenths.map((n, index) => (
        <rect
          // biome-ignore lint/suspicious/noArrayIndexKey: a tenth is its place
          key={index}
          className={styles.bar}
          x={across(index / tenths.length) + 2}
          y={scale(n)}
          width={width - 4}
          height={scale(0) - scale(n)}
        />
      ))}
      <path className={styles.even} d={`M${box.left} ${even}H${box.width - box.right}`} />
    </Plot>
  )
}

function CalibrationTable({ calibration }: { readonly calibration: Calibration }) {
  const { series } = useMessages()
  const words = series.calibration
  const { inside50, inside80, bias, score, tenths } = calibration
  const share = (of: Calibration['inside50']) =>
    of === null ? series.none : `${series.percent(of.share)} (${series.percent(of.low)} – ${series.percent(of.high)})`
  const rows: readonly (readonly [string, string])[] = [
    [words.coverage50, share(inside50)],
    [words.coverage80, share(inside80)],
    [
      words.bias,
      bias.mean === null
        ? series.none
        : bias.low === null || bias.high === null
          ? series.db(bias.mean)
          : `${series.db(bias.mean)} (${series.limits(bias.low, bias.high)})`,
    ],
    [words.score, score === null ? series.none : series.db(score.forecast)],
    [words.baseline, score === null ? series.none : series.db(score.baseline)],
    [
      words.gain,
      score === null
        ? series.none
        : `${series.db(score.gain.value)} (${series.limits(score.gain.low, score.gain.high)})`,
    ],
    ...tenths.map((n, index) => [`${words.tenth} ${index + 1}`, String(n)] as const),
  ]
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{words.measure}</th>
          <th scope="col">{words.value}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, value]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
