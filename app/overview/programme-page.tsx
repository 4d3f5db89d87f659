'use client'

import { useState } from 'react'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { EraseCaseButton, EraseCaseDialog } from '@/app/exchange/erase-case.tsx'
import { Receipts } from '@/app/exchange/receipts.tsx'
import { TakeInButton } from '@/app/exchange/take-in.tsx'
import { LeadActs } from '@/app/meeting/lead-acts.tsx'
import { NowPanel } from '@/app/meeting/now-panel.tsx'
import type { Following } from '@/app/meeting/programme-follower.ts'
import { ProgrammePages } from '@/app/meeting/programme-pages.tsx'
import { useLeading } from '@/app/meeting/use-leading.ts'
import { useProgramme } from '@/app/meeting/use-programme.ts'
import { useMessages } from '@/app/messages/for-overview.ts'
import { useAnswer } from '@/app/use-answer.ts'
import { mayInProgramme } from '@/lib/board/programme-rights.ts'
import { type CaseSummary, Me } from '@/lib/interchange/api.ts'
import { CaseList } from './case-list.tsx'
import { Invitations } from './invitations.tsx'
import { Masthead } from './masthead.tsx'
import { NewCaseButton } from './new-things.tsx'
import styles from './page.module.css'

/** The cases of one programme in their order, and which of them is on; for the owner also its invitations. */
export function ProgrammePage({ id }: { id: string }) {
  const { overview, shell } = useMessages()
  const { answer: me } = useAnswer('/api/me', Me)
  const following = useProgramme(id)
  return (
    <>
      <Masthead person={me.state === 'ready' ? (me.value.participant ?? undefined) : undefined} />
      <main className={styles.page}>
        {following.state === 'asking' && <p role="status">{shell.loading}</p>}
        {following.state === 'failed' && (
          <>
            <h1 className={styles.title}>{overview.programme}</h1>
            <p className={styles.fault} role="alert">
              {following.code === 'not-signed-in' ? overview.notJoinedHint : following.reason}
            </p>
          </>
        )}
        {following.state === 'following' && (
          <Day following={following} isOwner={me.state === 'ready' && me.value.isOwner} />
        )}
        <p className={styles.caution}>{overview.caution}</p>
      </main>
    </>
  )
}

interface DayProps {
  readonly following: Extract<Following, { state: 'following' }>
  readonly isOwner: boolean
}

function Day({ following: { detail, link }, isOwner }: DayProps) {
  const { overview } = useMessages()
  const leading = useLeading(detail)
  const [erasing, setErasing] = useState<CaseSummary>()
  const { programme, cases, onNow, next, role } = detail
  const onId = onNow.kind === 'case' ? onNow.id : undefined
  return (
    <>
      <div className={styles.head}>
        <h1 className={styles.title}>{programme.label}</h1>
        {mayInProgramme('takeIn', role) && <TakeInButton programme={programme.id} />}
        {isOwner && <NewCaseButton programme={programme.id} />}
      </div>
      <ProgrammePages id={programme.id} />
      <NowPanel detail={detail} link={link} onBetween={leading && (() => leading.bringOn({ kind: 'between' }))} />
      {leading?.fault !== undefined && (
        <p className={styles.fault} role="alert">
          {leading.fault}
        </p>
      )}
      <section className={styles.section} aria-label={overview.cases}>
        {cases.length === 0 ? (
          <EmptyHint title={overview.noCases} />
        ) : (
          <CaseList
            cases={cases}
            onId={onId}
            inMeeting
            acts={
              leading &&
              ((summary) => (
                <LeadActs
                  summary={summary}
                  leading={leading}
                  isOn={summary.id === onId}
                  isNext={onId === undefined && summary.id === next}
                >
                  {isOwner && <EraseCaseButton summary={summary} onWish={() => setErasing(summary)} />}
                </LeadActs>
              ))
            }
          />
        )}
      </section>
      {isOwner && <Invitations detail={detail} />}
      {isOwner && <EraseCaseDialog summary={erasing} onClose={() => setErasing(undefined)} />}
      {isOwner && <Receipts key={cases.length} />}
    </>
  )
}
