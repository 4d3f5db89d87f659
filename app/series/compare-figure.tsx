'use client'

import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-series.ts'
import { CouplingSite } from '@/lib/devices/classes.ts'
import type { SeriesAnswer } from '@/lib/interchange/series.ts'
import type { FilterField, SeriesFilter } from '@/lib/interchange/series-filter.ts'
import { gainMeasures } from '@/lib/outcomes/site-comparison.ts'
import styles from './bars.module.css'
import { Figure } from './figure.tsx'
import { frequencyTicks, frequencyX } from './frequency-axis.ts'
import { MeanCells, MeanHeads } from './mean-cell.tsx'
import { Plot, upwards } from './plot.tsx'
import { useSeriesQuery } from './use-series-query.ts'

type Comparison = NonNullable<SeriesAnswer['comparison']>

interface CompareFigureProps {
  readonly comparison: SeriesAnswer['comparison']
  readonly sites: SeriesAnswer['sites']
  readonly filter: SeriesFilter
  readonly query: string
}

const scale = upwards(-20, 20)
const ticks = [-20, -10, 0, 10, 20]
const significance = 0.05

/** Two coupling sites at each frequency: difference, interval, and what it says in words. */
export function CompareFigure({ comparison, sites, filter, query }: CompareFigureProps) {
  const { series } = useMessages()
  const controls = <Choices comparison={comparison} sites={sites} filter={filter} query={query} />
  return (
    <Figure
      title={series.compare.title}
      name="sites-compared"
      note={series.compare.note}
      controls={controls}
      remarks={comparison === null ? <p>{series.compare.nothing}</p> : <Said comparison={comparison} />}
      chart={comparison === null ? null : <Chart comparison={comparison} />}
      table={comparison === null ? null : <CompareTable comparison={comparison} />}
    />
  )
}

function Choices({ comparison, sites, filter, query }: CompareFigureProps) {
  const { series, words } = useMessages()
  const change = useSeriesQuery(query)
  const site = (field: 'first' | 'second', other: CouplingSite | undefined) => (
    <Field label={series.fields[field]}>
      {(control) => (
        <select {...control} value={comparison?.[field] ?? ''} onChange={({ target }) => change(field, target.value)}>
          {comparison === null && <option value="">{series.none}</option>}
          {CouplingSite.options
            .filter((each) => each !== other)
            .map((each) => (
              <option key={each} value={each}>
                {words.couplingSite[each]} ({sites.find((known) => known.site === each)?.n ?? 0})
              </option>
            ))}
        </select>
      )}
    </Field>
  )
  return (
    <div className={styles.controls}>
      {site('first', comparison?.second)}
      {site('second', comparison?.first)}
      <Field label={series.fields.measure}>
        {(control) => (
          <select
            {...control}
            value={filter.measure}
            onChange={({ target }) => change('measure' satisfies FilterField, target.value)}
          >
            {gainMeasures.map((measure) => (
              <option key={measure} value={measure}>
                {series.measures[measure]}
              </option>
            ))}
          </select>
        )}
      </Field>
    </div>
  )
}

/** The comparison in plain sentences: whom it favours where, where chance explains it, and what was not compared. */
function Said({ comparison }: { readonly comparison: Comparison }) {
  const { series, words } = useMessages()
  const { first, second, byFrequency, measure } = comparison
  const at = (rows: Comparison['byFrequency']) =>
    `${rows.map(({ frequency }) => series.kiloHertz(frequency)).join(', ')} kHz`
  const compared = byFrequency.filter(({ difference }) => difference !== null)
  const isSure = ({ difference }: Comparison['byFrequency'][number]) =>
    difference !== null && difference.pAdjusted < significance
  const better = compared.filter((row) => isSure(row) && (row.difference?.value ?? 0) > 0)
  const worse = compared.filter((row) => isSure(row) && (row.difference?.value ?? 0) < 0)
  const same = compared.filter((row) => !isSure(row))
  const not = byFrequency.filter(({ difference }) => difference === null)
  const name = (site: CouplingSite) => words.couplingSite[site]
  return (
    <>
      {better.length > 0 && <p>{series.compare.more(name(first), at(better))}</p>}
      {worse.length > 0 && <p>{series.compare.more(name(second), at(worse))}</p>}
      {same.length > 0 && <p>{series.compare.same(at(same))}</p>}
      {not.length > 0 && <p className={styles.quiet}>{series.compare.notCompared(at(not))}</p>}
      {measure === 'effective-gain' && not.some(({ frequency }) => frequency > 4000) && (
        <p className={styles.quiet}>{series.compare.boneHint}</p>
      )}
      <p className={styles.quiet}>
        {series.compare.groups(name(first), comparison.nFirst, name(second), comparison.nSecond)}
      </p>
    </>
  )
}

function Chart({ comparison }: { readonly comparison: Comparison }) {
  const { series } = useMessages()
  return (
    <Plot
      x={{ label: series.axis.frequency, ticks: frequencyTicks(series.kiloHertz) }}
      y={{ label: series.axis.difference, scale, ticks, textOf: series.whole, zero: 0 }}
    >
      {comparison.byFrequency.map(({ frequency, difference }) => {
        if (difference === null) return null
        const x = frequencyX(frequency)
        const isSure = difference.pAdjusted < significance
        return (
          <g key={frequency} className={styles.estimate} data-sure={isSure}>
            <path d={`M${x} ${scale(difference.low)}V${scale(difference.high)}`} />
            <circle cx={x} cy={scale(difference.value)} r={5} />
          </g>
        )
      })}
    </Plot>
  )
}

function CompareTable({ comparison }: { readonly comparison: Comparison }) {
  const { series, words } = useMessages()
  return (
    <table>
      <thead>
        <tr>
          <td />
          <th scope="colgroup" colSpan={3}>
            {words.couplingSite[comparison.first]}
          </th>
          <th scope="colgroup" colSpan={3}>
            {words.couplingSite[comparison.second]}
          </th>
          <td colSpan={3} />
        </tr>
        <tr>
          <th scope="col">{series.frequency}</th>
          <MeanHeads />
          <MeanHeads />
          <th scope="col">{series.compare.difference}</th>
          <th scope="col">{series.interval}</th>
          <th scope="col">{series.compare.adjusted}</th>
        </tr>
      </thead>
      <tbody>
        {comparison.byFrequency.map(({ frequency, first, second, difference }) => (
          <tr key={frequency}>
            <th scope="row">{series.kiloHertzUnit(frequency)}</th>
            <MeanCells of={first} />
            <MeanCells of={second} />
            {difference === null ? (
              <td colSpan={3}>{series.compare.tooFew}</td>
            ) : (
              <>
                <td>{series.number(difference.value)}</td>
                <td>{series.limits(difference.low, difference.high)}</td>
                <td>{series.compare.p(difference.pAdjusted)}</td>
              </>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
