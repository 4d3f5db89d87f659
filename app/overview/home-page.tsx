'use client'

import Link from 'next/link'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { useAnswer } from '@/app/use-answer.ts'
import {
  CaseList as CaseListAnswer,
  type CaseSummary,
  Me,
  type Programme,
  ProgrammeList,
} from '@/lib/interchange/api.ts'
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
  const failed = [programmes, cases].find((answer) => answer.state === 'failed')
  return (
    <>
      <div className={styles.head}>
        <h1 className={styles.title}>{overview.title}</h1>
        {isOwner && <NewProgrammeButton onCreated={reloadProgrammes} />}
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
  readonly programme: Programme
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
      {cases.length === 0 ? <EmptyHint title={overview.noCases} /> : <CaseList cases={cases} />}
    </section>
  )
}
