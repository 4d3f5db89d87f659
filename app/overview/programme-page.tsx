'use client'

import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { useAnswer } from '@/app/use-answer.ts'
import { Me, ProgrammeDetail } from '@/lib/interchange/api.ts'
import { CaseList } from './case-list.tsx'
import { Invitations } from './invitations.tsx'
import { Masthead } from './masthead.tsx'
import { NewCaseButton } from './new-things.tsx'
import styles from './page.module.css'

/** The cases of one programme in their order; for the owner also its invitations. */
export function ProgrammePage({ id }: { id: string }) {
  const { overview, shell } = useMessages()
  const { answer: me } = useAnswer('/api/me', Me)
  const { answer, reload } = useAnswer(`/api/programmes/${encodeURIComponent(id)}`, ProgrammeDetail)
  const isOwner = me.state === 'ready' && me.value.isOwner
  return (
    <>
      <Masthead person={me.state === 'ready' ? (me.value.participant ?? undefined) : undefined} />
      <main className={styles.page}>
        {answer.state === 'asking' && <p role="status">{shell.loading}</p>}
        {answer.state === 'failed' && (
          <>
            <h1 className={styles.title}>{overview.programme}</h1>
            <p className={styles.fault} role="alert">
              {answer.code === 'not-signed-in' ? overview.notJoinedHint : answer.reason}
            </p>
          </>
        )}
        {answer.state === 'ready' && (
          <>
            <div className={styles.head}>
              <h1 className={styles.title}>{answer.value.programme.label}</h1>
              {isOwner && <NewCaseButton programme={id} onCreated={reload} />}
            </div>
            <section className={styles.section} aria-label={overview.cases}>
              {answer.value.cases.length === 0 ? (
                <EmptyHint title={overview.noCases} />
              ) : (
                <CaseList cases={answer.value.cases} />
              )}
            </section>
            {isOwner && <Invitations detail={answer.value} />}
          </>
        )}
        <p className={styles.caution}>{overview.caution}</p>
      </main>
    </>
  )
}
