'use client'

import { useState } from 'react'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-series.ts'
import type { SeriesAnswer } from '@/lib/interchange/series.ts'
import { cellStep } from '@/lib/outcomes/scattergram.ts'
import styles from './bars.module.css'
import { Figure } from './figure.tsx'
import { across, Plot, upwards } from './plot.tsx'

type Scattergram = SeriesAnswer['scattergram']
type Which = 'before' | 'change'
const views: readonly Which[] = ['before', 'change']

/** Words over average, each ear in a cell: as readable with ten ears as with ten thousand. */
export function ScatterFigure({ scattergram }: { readonly scattergram: Scattergram }) {
  const { series } = useMessages()
  const words = series.scatter
  const [which, setWhich] = useState<Which>('change')
  const cells = scattergram[which]
  const [n, missing] =
    which === 'before'
      ? [scattergram.nBefore, scattergram.missingBefore]
      : [scattergram.nChange, scattergram.missingChange]
  return (
    <Figure
      title={words.title}
      name={`scattergram-${which}`}
      note={words.note}
      controls={
        <div className={styles.controls}>
          <Field label={words.which}>
            {(control) => (
              <select
                {...control}
                value={which}
                onChange={({ target }) => setWhich(views.find((view) => view === target.value) ?? which)}
              >
                {views.map((view) => (
                  <option key={view} value={view}>
                    {words[view]}
                  </option>
                ))}
              </select>
            )}
          </Field>
        </div>
      }
      remarks={
        <p>
          {series.ears(n)}. {missing > 0 && words.missing(missing)}
        </p>
      }
      chart={<Chart cells={cells} which={which} />}
      table={
        <table>
          <thead>
            <tr>
              <th scope="col">{words.cell}</th>
              <th scope="col">{words.wordsCell}</th>
              <th scope="col">{series.n}</th>
            </tr>
          </thead>
          <tbody>
            {cells.map(({ averageDb, wordsPercent, n: ears }) => (
              <tr key={`${averageDb} ${wordsPercent}`}>
                <th scope="row">{spanText(averageDb, which === 'before' ? endsOf.average : undefined, words)}</th>
                <td>{spanText(wordsPercent, which === 'before' ? endsOf.words : undefined, words)}</td>
                <td>{ears}</td>
              </tr>
            ))}
          </tbody>
        </table>
      }
    />
  )
}

interface Ends {
  /** lower edge of the first and of the last cell; undefined: it ends with its step */
  readonly first: number
  readonly last: number | undefined
}

/** Before, the first cells take what is below them too, and the last one of the average what is above. */
const endsOf = { average: { first: 0, last: 90 }, words: { first: 0, last: undefined } } as const

type SpanWords = ReturnType<typeof useMessages>['series']['scatter']

function spanText(edge: number, ends: Ends | undefined, words: SpanWords): string {
  if (edge === ends?.last) return words.over(edge)
  return edge === ends?.first ? words.upTo(edge + cellStep) : words.between(edge, edge + cellStep)
}

interface Span {
  readonly from: number
  readonly to: number
}

/** Of a change at least so much, and as far as the cells go, so that none is drawn over another. */
const leastSpans = { average: { from: -60, to: 20 }, words: { from: -20, to: 60 } } as const

function spansOf(cells: Scattergram['before'], which: Which): { readonly average: Span; readonly words: Span } {
  if (which === 'before') return { average: { from: 0, to: 100 }, words: { from: 0, to: 100 } }
  const over = ({ from, to }: Span, edges: readonly number[]): Span => ({
    from: Math.min(from, ...edges),
    to: Math.max(to, ...edges.map((edge) => edge + cellStep)),
  })
  return {
    average: over(
      leastSpans.average,
      cells.map(({ averageDb }) => averageDb),
    ),
    words: over(
      leastSpans.words,
      cells.map(({ wordsPercent }) => wordsPercent),
    ),
  }
}

/** Average along, better hearing on the left; words upwards: what is good lies at the upper left. */
function Chart({ cells, which }: { readonly cells: Scattergram['before']; readonly which: Which }) {
  const { series } = useMessages()
  const { average, words } = spansOf(cells, which)
  const x = (db: number) => across((db - average.from) / (average.to - average.from))
  const y = upwards(words.from, words.to)
  const most = Math.max(1, ...cells.map(({ n }) => n))
  return (
    <Plot
      x={{
        label: which === 'before' ? series.axis.average : series.axis.averageChange,
        ticks: ticksIn(average).map((tick) => ({
          at: x(tick),
          text: which === 'before' && tick === average.to ? series.scatter.beyond : series.whole(tick),
        })),
      }}
      y={{
        label: which === 'before' ? series.axis.words : series.axis.wordsChange,
        scale: y,
        ticks: ticksIn(words),
        textOf: series.whole,
        ...(which === 'change' ? { zero: 0 } : {}),
      }}
    >
      {cells.map(({ averageDb, wordsPercent, n }) => {
        const left = x(averageDb)
        const top = y(wordsPercent + cellStep)
        const width = x(averageDb + cellStep) - left
        const height = y(wordsPercent) - top
        return (
          <g key={`${averageDb} ${wordsPercent}`}>
            <rect
              className={styles.cell}
              x={left}
              y={top}
              width={width}
              height={height}
              fillOpacity={0.08 + 0.32 * (n / most)}
            />
            <text className={styles.value} x={left + width / 2} y={top + height / 2 + 5} textAnchor="middle">
              {n}
            </text>
          </g>
        )
      })}
    </Plot>
  )
}

/** Every second edge. */
const ticksIn = ({ from, to }: Span): readonly number[] => {
  const first = Math.ceil(from / (2 * cellStep)) * 2 * cellStep
  return Array.from(
    { length: Math.floor((to - first) / (2 * cellStep)) + 1 },
    (_, index) => first + index * 2 * cellStep,
  )
}
