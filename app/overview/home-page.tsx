'use client'

import Link from 'next/link'
import { useEffect } from 'react'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { forgetErasedCases } from '@/app/exchange/forget-case.ts'
import { useMessages } from '@/app/messages/for-overview.ts'
import { useAnswer } from '@/app/use-answer.ts'
import { rolesWithSeries } from '@/lib/board/roles.ts'
import { CaseList as CaseListAnswer, type CaseSummary, Me, ProgrammeList } from '@/lib/interchange/api.ts'
import { CaseList } from './case-list.tsx'
import { Masthead } from './masthead.tsx'
import { NewCaseButton, NewProgrammeButton } from './new-things.tsx'
import styles from './page.module.css'

/** Programmes and their cases, as far as one has been invited to them. */
export function HomePage() {
  const { answer: me } = useAnswer('/api/me', Me)
  const { overview, shell } = useMessages()
  const person = me.state === 'ready' ? (me.value.participant ?? undefined) : undefined
  return (
    <>
      <Masthead person={person} />
      <main className={styles.page}>
        {me.state === 'asking' && <p role="status">{shell.loading}</p>}
        {me.state === 'failed' && (
          <p className={styles.fault} role="alert">
            {me.reason}
          </p>
        )}
        {me.state === 'ready' && me.value.participant === null && <Welcome />}
        {me.state === 'ready' && me.value.participant !== null && <Programmes isOwner={me.value.isOwner} />}
        <p className={styles.caution}>{overview.caution}</p>
      </main>
    </>
  )
}

function Welcome() {
  const { overview, shell } = useMessages()
  return (
    <>
      <h1 className={styles.title}>{shell.productName}</h1>
      <p className={styles.lead}>{overview.purpose}</p>
      <EmptyHint title={overview.notJoined}>{overview.notJoinedHint}</EmptyHint>
    </>
  )
}

function Programmes({ isOwner }: { isOwner: boolean }) {
  const { overview, shell } = useMessages()
  const { answer: programmes, reload: reloadProgrammes } = useAnswer('/api/programmes', ProgrammeList)
  const { answer: cases, reload: reloadCases } = useAnswer('/api/cases', CaseListAnswer)
  useEffect(() => {
    // Without an answer the copies stay, and are asked about the next time.
    forgetErasedCases().catch(() => undefined)
  }, [])
  const failed = [programmes, cases].find((answer) => answer.state === 'failed')
  return (
    <>
      <div className={styles.head}>
        <h1 className={styles.title}>{overview.title}</h1>
        <div className={styles.acts}>
          {cases.state === 'ready' && cases.value.cases.some(({ role }) => rolesWithSeries.includes(role)) && (
            <Link className={styles.series} href="/series">
              {overview.series}
            </Link>
          )}
          {isOwner && <NewProgrammeButton onCreated={reloadProgrammes} />}
        </div>
      </div>
      {failed?.state === 'failed' && (
        <p className={styles.fault} role="alert">
          {failed.reason}
        </p>
      )}
      {programmes.state === 'asking' && <p role="status">{shell.loading}</p>}
      {programmes.state === 'ready' && programmes.value.programmes.length === 0 && (
        <EmptyHint title={overview.noProgrammes}>
          {isOwner ? overview.noProgrammesOwner : overview.noProgrammesGuest}
        </EmptyHint>
      )}
      {programmes.state === 'ready' &&
        cases.state === 'ready' &&
        programmes.value.programmes.map((programme) => (
          <ProgrammeSection
            key={programme.id}
            programme={programme}
            cases={cases.value.cases.filter((summary) => summary.programme === programme.id)}
            onCaseCreated={isOwner ? reloadCases : undefined}
          />
        ))}
    </>
  )
}

interface ProgrammeSectionProps {
  readonly programme: ProgrammeList['programmes'][number]
  readonly cases: readonly CaseSummary[]
  /** given to those who may create cases */
  readonly onCaseCreated: (() => void) | undefined
}

function ProgrammeSection({ programme, cases, onCaseCreated }: ProgrammeSectionProps) {
  const { overview } = useMessages()
  return (
    <section className={styles.section} aria-label={programme.label}>
      <div className={styles.sectionHead}>
        <h2 className={styles.sectionTitle}>
          <Link href={`/programme/${programme.id}`}>{programme.label}</Link>
        </h2>
        {onCaseCreated !== undefined && <NewCaseButton programme={programme.id} onCreated={onCaseCreated} />}
      </div>
      {cases.length === 0 ? (
        <EmptyHint title={overview.noCases} />
      ) : (
        <CaseList cases={cases} onId={programme.onNow.kind === 'case' ? programme.onNow.id : undefined} />
      )}
    </section>
  )
}
