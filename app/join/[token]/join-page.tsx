'use client'

import { useState } from 'react'
import { askApi, sentenceOfFault, tellApi } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-join.ts'
import { dayAndClockOf } from '@/app/messages/moments.ts'
import { Masthead } from '@/app/overview/masthead.tsx'
import { useAnswer } from '@/app/use-answer.ts'
import { InvitationPreview, JoinAnswer, Me, type Person } from '@/lib/interchange/api.ts'
import { Conduct } from './conduct.tsx'
import { JoinForm } from './join-form.tsx'
import styles from './join-page.module.css'

/** What a link opens, what its role may do, what one keeps to; then one's name. */
export function JoinPage({ token }: { token: string }) {
  const { join, shell } = useMessages()
  const { answer: me, reload } = useAnswer('/api/me', Me)
  const { answer: link, reload: checkAgain } = useAnswer(
    `/api/invitations/${encodeURIComponent(token)}/preview`,
    InvitationPreview,
  )
  return (
    <>
      <Masthead />
      <main className={styles.page}>
        {(link.state === 'asking' || me.state === 'asking') && <p role="status">{shell.loading}</p>}
        {link.state === 'failed' && (
          <EmptyHint title={join.cannotCheck}>
            <p role="alert">{link.reason}</p>
            <Button onClick={checkAgain}>{join.tryAgain}</Button>
          </EmptyHint>
        )}
        {link.state === 'ready' && link.value.state !== 'open' && <ClosedLink link={link.value} />}
        {link.state === 'ready' && link.value.state === 'open' && me.state === 'ready' && (
          <OpenLink token={token} link={link.value} known={me.value.participant ?? undefined} onSignedOut={reload} />
        )}
      </main>
    </>
  )
}

function ClosedLink({ link }: { link: Exclude<InvitationPreview, { state: 'open' }> }) {
  const { join } = useMessages()
  return (
    <>
      <h1 className={styles.title}>{join[link.state]}</h1>
      <p>{link.state === 'expired' ? join.expiredHint(dayAndClockOf(link.expiredAt)) : join[`${link.state}Hint`]}</p>
    </>
  )
}

interface OpenLinkProps {
  readonly token: string
  readonly link: Extract<InvitationPreview, { state: 'open' }>
  readonly known: Person | undefined
  readonly onSignedOut: () => void
}

function OpenLink({ token, link, known, onSignedOut }: OpenLinkProps) {
  const { join, words } = useMessages()
  const enter = async (who: { name: string; affiliation: string }) => {
    const { destination } = await askApi('/api/join', JoinAnswer, { method: 'POST', body: { token, ...who } })
    // A full load: every cached answer of the page belongs to whoever was here before.
    location.assign(destination)
  }
  return (
    <>
      <div>
        <p className={styles.invited}>{join.invitedTo}</p>
        <h1 className={styles.title}>{link.scope.kind === 'installation' ? join.everything : link.label}</h1>
      </div>
      <section className={styles.role}>
        <StateSign tone="accent">{words.role[link.role]}</StateSign>
        <ul className={styles.may}>
          {join.may[link.role].map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </section>
      <Conduct />
      {known === undefined ? (
        <JoinForm role={words.role[link.role]} enter={enter} />
      ) : (
        <KnownPerson person={known} enter={enter} onSignedOut={onSignedOut} />
      )}
      {link.expiresAt !== null && <p className={styles.quiet}>{join.until(dayAndClockOf(link.expiresAt))}</p>}
    </>
  )
}

interface KnownPersonProps {
  readonly person: Person
  readonly enter: (who: { name: string; affiliation: string }) => Promise<void>
  readonly onSignedOut: () => void
}

function KnownPerson({ person, enter, onSignedOut }: KnownPersonProps) {
  const { join, shell } = useMessages()
  const { name, affiliation } = person
  const [isLeaving, setLeaving] = useState(false)
  const [fault, setFault] = useState<string>()
  const attempt = (act: () => Promise<void>) => () => act().catch((error: unknown) => setFault(sentenceOfFault(error)))
  return (
    <section className={styles.known}>
      <p>
        <strong>{join.knownAs(name, affiliation)}</strong> {isLeaving ? join.somebodyElseHint(name) : join.knownHint}
      </p>
      {fault !== undefined && <p role="alert">{fault}</p>}
      {isLeaving ? (
        <div className={styles.acts}>
          <Button
            tone="stop"
            onClick={attempt(async () => {
              await tellApi('/api/leave', { method: 'POST', body: {} })
              onSignedOut()
            })}
          >
            {join.signOut}
          </Button>
          <Button onClick={() => setLeaving(false)}>{shell.cancel}</Button>
        </div>
      ) : (
        <div className={styles.acts}>
          <Button tone="accent" onClick={attempt(() => enter({ name, affiliation }))}>
            {join.continueAs(name)}
          </Button>
          <Button onClick={() => setLeaving(true)}>{join.somebodyElse}</Button>
        </div>
      )}
    </section>
  )
}
