'use client'

import { useId, useMemo } from 'react'
import { AudiogramChart } from '@/app/audiogram/audiogram-chart.tsx'
import type { LevelBand } from '@/app/audiogram/chart-intervals.tsx'
import { layerOf } from '@/app/audiogram/layers.ts'
import { usePerson } from '@/app/board/board-context.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { frequencyOf } from '@/app/screen/formats.ts'
import { audiogramOf } from '@/lib/board/audiograms.ts'
import { testsOfVisit } from '@/lib/board/ear-course.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { ForecastRecord } from '@/lib/board/records/sealed-record.ts'
import type { HeldVisit } from '@/lib/board/records/visit.ts'
import type { SealedForecast } from '@/lib/devices/sealed-forecast.ts'
import type { SealedQuantity } from '@/lib/devices/sealed-numbers.ts'
import { type Score, scoreForecast } from '@/lib/forecast/scoring.ts'
import { scorableForecast } from '@/lib/forecast/sealed-forecast.ts'
import { MissExplained } from './miss-explained.tsx'
import styles from './result-section.module.css'
import type { FollowUp } from './use-follow-up.ts'
import { visitName } from './visit-name.ts'
import wide from './wide-table.module.css'

interface ResultSectionProps {
  readonly facts: FollowUp
  readonly visit: HeldVisit
}

/** What was measured with the device over what was sealed before the operation. */
export function ResultSection({ facts, visit }: ResultSectionProps) {
  const { followUp } = useMessages()
  const aided = testsOfVisit(facts.tests, visit.id, facts.ear).aided
  const words = followUp.result
  return (
    <Pane title={words.title}>
      {facts.forecast === undefined ? (
        <p>{words.noForecast}</p>
      ) : aided === undefined || Object.keys(aided.points).length === 0 ? (
        <p>{words.noAided}</p>
      ) : (
        <Result facts={facts} visit={visit} sealed={facts.forecast} aided={aided} />
      )}
    </Pane>
  )
}

interface ResultProps extends ResultSectionProps {
  readonly sealed: ForecastRecord
  readonly aided: HearingTest
}

function Result({ facts, visit, sealed, aided }: ResultProps) {
  const messages = useMessages()
  const { followUp, words, board } = messages
  const author = usePerson(sealed.author)
  const tableId = useId()
  const labels = followUp.result
  const thresholds = useMemo(() => audiogramOf(aided.points, 'aided'), [aided])
  const bands = useMemo(() => bandsOf(sealed.content), [sealed])
  const layers = useMemo(() => [layerOf(aided, 'current')], [aided])
  const bone = testsOfVisit(facts.tests, visit.id, facts.ear).unaided
  return (
    <>
      <p className={wide.fine}>
        {labels.sealedAt(author?.name ?? board.unknownPerson, calendarDayOf(sealed.at))} {labels.legend}
      </p>
      <div className={styles.both}>
        <div className={styles.chart}>
          <AudiogramChart
            label={labels.chart(words.ear[facts.ear], visitName(visit, messages))}
            describedBy={tableId}
            layers={layers}
            bands={bands}
          />
        </div>
        <ResultTable id={tableId} content={sealed.content} thresholds={thresholds} />
      </div>
      <MissExplained content={sealed.content} aided={thresholds} unaided={bone} />
    </>
  )
}

/** 80 % and 50 % of the sealed expectation; the darker one lies inside. */
function bandsOf({ byFrequency, inputs: { ear } }: SealedForecast): readonly LevelBand[] {
  const estimates = byFrequency.flatMap(({ frequency, aidedThreshold }) =>
    aidedThreshold.kind === 'estimate' ? [{ hz: frequency, ...aidedThreshold }] : [],
  )
  return [
    { id: 'outer', kind: 'forecast', ear, limits: estimates.map(({ hz, interval }) => ({ hz, ...interval })) },
    {
      id: 'inner',
      kind: 'forecast',
      ear,
      limits: estimates.map(({ hz, interval50, value }) => ({ hz, ...interval50, middle: value })),
    },
  ]
}

interface ResultTableProps {
  readonly id: string
  readonly content: SealedForecast
  readonly thresholds: ReturnType<typeof audiogramOf>
}

function ResultTable({ id, content, thresholds }: ResultTableProps) {
  const { followUp, language } = useMessages()
  const labels = followUp.result
  const score = useMemo(() => scoreForecast(scorableForecast(content), thresholds), [content, thresholds])
  const rows = score.byFrequency.map(({ frequency, score: at }, index) => ({
    name: frequencyOf(frequency, language),
    sealed: content.byFrequency[index]?.aidedThreshold,
    score: at,
  }))
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling table has to be reached by keyboard
    <section className={wide.scroll} id={id} tabIndex={0} aria-label={labels.caption}>
      <table className={`${wide.table} ${styles.withTotal}`}>
        <caption>{labels.caption}</caption>
        <thead>
          <tr>
            {[
              labels.frequency,
              labels.forecast,
              labels.inner,
              labels.outer,
              labels.measured,
              labels.error,
              labels.inside,
              labels.score,
            ].map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows
            .filter(({ sealed, score: at }) => sealed?.kind === 'estimate' || at.kind === 'scored')
            .map((row) => (
              <ResultRow key={row.name} {...row} />
            ))}
          <ResultRow name={labels.fourTone} sealed={content.fourTone.aidedThreshold} score={score.fourTone} />
        </tbody>
      </table>
      <p className={wide.fine}>{labels.scoreHint}</p>
    </section>
  )
}

interface ResultRowProps {
  readonly name: string
  readonly sealed: SealedQuantity | undefined
  readonly score: Score
}

function ResultRow({ name, sealed, score }: ResultRowProps) {
  const { followUp } = useMessages()
  const { plain, signed, result: labels } = followUp
  const estimate = sealed?.kind === 'estimate' ? sealed : undefined
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{estimate && plain(estimate.value)}</td>
      <td>{estimate && labels.range(estimate.interval50.low, estimate.interval50.high)}</td>
      <td>{estimate && labels.range(estimate.interval.low, estimate.interval.high)}</td>
      {score.kind === 'absent' ? (
        <td colSpan={4} className={wide.fine}>
          {labels.absent[score.reason]}
        </td>
      ) : (
        <>
          <td>{plain(score.measured)}</td>
          <td>{signed(score.error)}</td>
          <td>
            <StateSign tone={score.inside50 ? 'good' : score.inside80 ? 'quiet' : 'caution'}>
              {score.inside50 ? labels.insideBoth : score.inside80 ? labels.insideOuter : labels.outside}
            </StateSign>
          </td>
          <td>{score.rankedProbability === undefined ? '' : plain(score.rankedProbability)}</td>
        </>
      )}
    </tr>
  )
}
