'use client'

import Link from 'next/link'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { useMessages } from '@/app/messages/for-series.ts'
import { Masthead } from '@/app/overview/masthead.tsx'
import { type Answer, useAnswer } from '@/app/use-answer.ts'
import { Me } from '@/lib/interchange/api.ts'
import { SeriesAnswer } from '@/lib/interchange/series.ts'
import { readFilter, type SeriesFilter } from '@/lib/interchange/series-filter.ts'
import { fewestEars } from '@/lib/outcomes/series-mean.ts'
import { BinsFigure } from './bins-figure.tsx'
import { CalibrationFigure } from './calibration-figure.tsx'
import { CompareFigure } from './compare-figure.tsx'
import { CourseFigure } from './course-figure.tsx'
import { MeanFigure } from './mean-figure.tsx'
import { ScatterFigure } from './scatter-figure.tsx'
import { SeriesFilters } from './series-filters.tsx'
import styles from './series-page.module.css'
import { StudySizeForm } from './study-size-form.tsx'

/** Outcomes over the cases that the reader may see. @param query the filters as they stand in the address */
export function SeriesPage({ query }: { readonly query: string }) {
  const { series } = useMessages()
  const { answer: me } = useAnswer('/api/me', Me)
  const person = me.state === 'ready' ? (me.value.participant ?? undefined) : undefined
  const read = readFilter(new URLSearchParams(query))
  return (
    <>
      <Masthead person={person} />
      <main className={styles.page}>
        <header>
          <h1 className={styles.title}>{series.pageTitle}</h1>
          <p className={styles.lead}>{series.lead}</p>
        </header>
        {read.ok ? <Asked query={query} filter={read.filter} /> : <BadFilter field={read.field} value={read.value} />}
        <p className={styles.caution}>{series.caution}</p>
      </main>
    </>
  )
}

function BadFilter({ field, value }: { readonly field: string; readonly value: string }) {
  const { series, words } = useMessages()
  return (
    <div role="alert" className={styles.fault}>
      <p>{words.labelled(series.badFilter, `${field} = “${value}”`)}.</p>
      <p>
        <Link href="/series">{series.clear}</Link>
      </p>
    </div>
  )
}

function Asked({ query, filter }: { readonly query: string; readonly filter: SeriesFilter }) {
  const { series } = useMessages()
  const { answer } = useAnswer(`/api/series?${query}`, SeriesAnswer)
  if (answer.state === 'failed' && (answer.code === 'not-permitted' || answer.code === 'not-signed-in'))
    return <EmptyHint title={series.notForYou}>{series.notForYouHint}</EmptyHint>
  return (
    <>
      <SeriesFilters query={query} filter={filter} tags={answer.state === 'ready' ? answer.value.tags : []} />
      <Figures answer={answer} query={query} filter={filter} />
    </>
  )
}

interface FiguresProps {
  readonly answer: Answer<SeriesAnswer>
  readonly query: string
  readonly filter: SeriesFilter
}

function Figures({ answer, query, filter }: FiguresProps) {
  const { series } = useMessages()
  if (answer.state === 'asking') return <p role="status">{series.loading}</p>
  if (answer.state === 'failed')
    return (
      <p role="alert" className={styles.fault}>
        {answer.reason}
      </p>
    )
  const { value } = answer
  const { ears } = value
  const leftOut = series.leftOut(ears)
  return (
    <>
      <div role="status" className={styles.count}>
        <p>{series.count(ears.n, ears.withResult)}</p>
        {leftOut !== '' && <p className={styles.fine}>{series.leftOutLead(leftOut)}</p>}
        {value.unreadable.length > 0 && (
          <p className={styles.few}>{series.unreadable(value.unreadable.map(({ label }) => label))}</p>
        )}
        {ears.n > 0 && ears.withResult < fewestEars && <p className={styles.few}>{series.few(ears.withResult)}</p>}
      </div>
      {ears.n === 0 ? (
        <EmptyHint title={series.empty}>{series.emptyHint}</EmptyHint>
      ) : (
        <div className={styles.figures}>
          <MeanFigure audiograms={value.audiograms} />
          <CompareFigure comparison={value.comparison} sites={value.sites} filter={filter} query={query} />
          <CourseFigure course={value.course} />
          <BinsFigure bins={value.bins} />
          <ScatterFigure scattergram={value.scattergram} />
          <CalibrationFigure calibration={value.calibration} />
          <StudySizeForm spread={value.spread} measure={filter.measure} />
        </div>
      )}
    </>
  )
}
