'use client'

import type { ReactNode } from 'react'
import { useMessages } from '@/app/messages/for-screens.ts'
import { useWords } from '@/app/screen/use-words.ts'
import type { Annotation } from '@/lib/board/records/annotation.ts'
import type { CaseHeader } from '@/lib/board/records/case-header.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Plan } from '@/lib/board/records/plan.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import styles from './handout.module.css'
import { ContingencyTable, PlanTable } from './handout-decisions.tsx'
import { sortedTests } from './handout-order.ts'
import { SpeechTestTable } from './speech-test-table.tsx'
import { TestSheet } from './test-sheet.tsx'

export interface HandoutContent {
  readonly header: CaseHeader | undefined
  readonly tests: readonly HearingTest[]
  readonly speechTests: readonly SpeechTest[]
  readonly annotations: readonly Annotation[]
  readonly plan: Plan | undefined
  readonly contingencies: readonly Contingency[]
}

interface HandoutProps {
  readonly content: HandoutContent
  /** ISO 8601 */
  readonly generatedAt: string
  /** where a code from this paper can be typed */
  readonly checkAddress: string
}

/** The sheet that leaves the room: every record with its code, those to rely on first, the others crossed at the end. */
export function Handout({ content, generatedAt, checkAddress }: HandoutProps) {
  const { handout } = useMessages().screens
  const { current, former } = sortedTests(content.tests)
  const sheetOf = (test: HearingTest) => (
    <TestSheet key={test.id} test={test} tests={content.tests} annotations={content.annotations} />
  )
  return (
    <article className={styles.sheet} data-theme="clinic">
      <SheetHead header={content.header} generatedAt={generatedAt} />
      <p className={styles.howToCheck}>{handout.howToCheck(checkAddress)}</p>
      <ul className={styles.cautions}>
        {handout.cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <Part title={handout.currentTests}>
        {current.length > 0 ? current.map(sheetOf) : <p>{handout.noCurrentTests}</p>}
      </Part>
      {content.speechTests.length > 0 && (
        <Part title={handout.speechTests}>
          <SpeechTestTable tests={content.speechTests} />
        </Part>
      )}
      <Part title={handout.plan}>
        {content.plan === undefined ? <p>{handout.noPlan}</p> : <PlanTable plan={content.plan} />}
      </Part>
      <Part title={handout.contingencies}>
        <ContingencyTable contingencies={content.contingencies} />
      </Part>
      {former.length > 0 && (
        <Part title={handout.formerTests} tone="former">
          <p className={styles.hint}>{handout.formerHint}</p>
          {former.map(sheetOf)}
        </Part>
      )}
    </article>
  )
}

function SheetHead({ header, generatedAt }: { header: CaseHeader | undefined; generatedAt: string }) {
  const { handout } = useMessages().screens
  const { moment } = useWords()
  return (
    <header className={styles.head}>
      <p className={styles.what}>{handout.heading}</p>
      <h1 className={styles.pseudonym}>{header?.pseudonym}</h1>
      {header !== undefined && <AboutPatient header={header} />}
      <p className={styles.generated}>{handout.generated(moment(generatedAt))}</p>
      {header !== undefined && header.summary !== '' && <p className={styles.summary}>{header.summary}</p>}
    </header>
  )
}

function AboutPatient({ header: { ear, ageYears, sex, phase } }: { header: CaseHeader }) {
  const { screens, words } = useMessages()
  const { handout } = screens
  const age = ageYears === undefined ? handout.sex[sex] : handout.ageAndSex(ageYears, handout.sex[sex])
  return (
    <p className={styles.about}>{[words.ear[ear], age, words.phase[phase]].filter((part) => part !== '').join(', ')}</p>
  )
}

function Part({ title, tone, children }: { title: string; tone?: 'former'; children: ReactNode }) {
  return (
    <section className={styles.part} data-tone={tone}>
      <h2 className={styles.partTitle}>{title}</h2>
      {children}
    </section>
  )
}
