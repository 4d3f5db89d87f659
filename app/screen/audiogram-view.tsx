'use client'

import { useMemo } from 'react'
import { AudiogramChart } from '@/app/audiogram/audiogram-chart.tsx'
import { layerOf } from '@/app/audiogram/layers.ts'
import { usePerson } from '@/app/board/board-context.tsx'
import { useMessages } from '@/app/messages/for-screens.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { recordCode } from '@/lib/interchange/record-code.ts'
import styles from './audiogram-view.module.css'
import { type MeasureText, measureText } from './measure-text.ts'
import type { EarOnScreen } from './screen-content.ts'
import { stageChartText } from './stage-chart.ts'
import { testMeasures } from './test-measures.ts'
import { useWords } from './use-words.ts'

/** One ear large with its measures beside it, or both ears side by side as if facing the patient: right ear left. */
export function AudiogramView({ ears }: { ears: readonly EarOnScreen[] }) {
  const closed = ears.flatMap(({ tests }) => tests.filter(({ state }) => state !== 'current'))
  return (
    <section className={styles.view} data-ears={ears.length}>
      {closed.map((test) => (
        <NotCurrent key={test.id} test={test} />
      ))}
      <div className={styles.ears}>
        {ears.map((ear) => (
          <EarPanel key={ear.ear} ear={ear} crowded={ears.length > 1} />
        ))}
      </div>
    </section>
  )
}

function NotCurrent({ test: { state, closing } }: { test: HearingTest }) {
  const { screens, words } = useMessages()
  const { day } = useWords()
  if (state === 'current' || closing === undefined) return null
  return (
    <p className={styles.warning} data-state={state} role="alert">
      <strong className={styles.warningWord}>
        <span aria-hidden="true">✕ </span>
        {screens.screen.notCurrent(words.testState[state])}
      </strong>
      <span className={styles.warningReason}>{screens.screen.closedBecause(day(closing.at), closing.reason)}</span>
    </p>
  )
}

function EarPanel({ ear: { ear, tests }, crowded }: { ear: EarOnScreen; crowded: boolean }) {
  const { screens, words } = useMessages()
  const layers = useMemo(() => tests.map((test) => layerOf(test)), [tests])
  const conditions = tests.map(({ condition }) => words.condition[condition]).join(', ')
  const Label = crowded || tests.length > 1 ? TestInShort : TestInFull
  return (
    <article className={styles.ear} data-ear={ear}>
      <h1 className={styles.earName}>{words.ear[ear]}</h1>
      <div className={styles.chart}>
        <AudiogramChart
          label={screens.screen.chartLabel(words.ear[ear], conditions)}
          layers={layers}
          fit="box"
          textSize={stageChartText}
        />
        {tests.length === 0 && <p className={styles.none}>{screens.screen.noCurrentTest(words.earShort[ear])}</p>}
      </div>
      <div className={styles.tests}>
        {tests.map((test) => (
          <Label key={test.id} test={test} withMeasures={!crowded || tests.length === 1} />
        ))}
      </div>
    </article>
  )
}

interface TestLabelProps {
  readonly test: HearingTest
  readonly withMeasures: boolean
}

/** A test that has half the screen to itself. */
function TestInFull({ test }: TestLabelProps) {
  const messages = useMessages()
  const { screen } = messages.screens
  const measures = testMeasures(test).map((measure) => measureText(measure, messages))
  return (
    <div className={styles.full} data-state={test.state}>
      <p className={styles.codeLabel}>{screen.recordCode}</p>
      <Code test={test} />
      <Facts test={test} />
      <dl className={styles.measures}>
        {measures.map(({ name, value }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <MeansOver measures={measures} />
    </div>
  )
}

/** A test beside others: code and facts in one line, its measures in the next. */
function TestInShort({ test, withMeasures }: TestLabelProps) {
  const messages = useMessages()
  const measures = testMeasures(test).map((measure) => measureText(measure, messages))
  return (
    <div className={styles.short} data-state={test.state}>
      <Code test={test} />
      <Facts test={test} />
      {withMeasures && (
        <p className={styles.inline}>
          {measures.map(({ shortName, value }) => (
            <span key={shortName}>
              {shortName} <strong>{value}</strong>
            </span>
          ))}
          <MeansOver measures={measures} />
        </p>
      )}
    </div>
  )
}

function Code({ test }: { test: HearingTest }) {
  return (
    <data className={styles.code} value={recordCode(test)}>
      {recordCode(test)}
    </data>
  )
}

/** Over which frequencies the means go: once, since all of one test go over the same. */
function MeansOver({ measures }: { measures: readonly MeasureText[] }) {
  const { screen } = useMessages().screens
  return (
    <span className={styles.over}>{screen.meansOver([...new Set(measures.map(({ over }) => over))].join('; '))}</span>
  )
}

function Facts({ test }: { test: HearingTest }) {
  const { words } = useMessages()
  const { calendarDay } = useWords()
  return (
    <p className={styles.facts}>
      <span>{words.condition[test.condition]}</span>
      <time dateTime={test.performedOn}>{calendarDay(test.performedOn)}</time>
      <VerifiedBy test={test} />
    </p>
  )
}

function VerifiedBy({ test: { verification, author } }: { test: HearingTest }) {
  const { screens, board } = useMessages()
  const person = usePerson(verification?.by ?? author)
  if (verification === undefined)
    return (
      <span className={styles.unverified}>
        <span aria-hidden="true">△ </span>
        {screens.screen.notVerified}
      </span>
    )
  const name = person?.name ?? board.unknownPerson
  return (
    <span aria-label={screens.screen.verified(name)} role="note">
      <span aria-hidden="true">✓ </span>
      {name}
    </span>
  )
}
