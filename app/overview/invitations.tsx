'use client'

import { useState } from 'react'
import { askApi, sentenceOfFault } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-overview.ts'
import { dayAndClockOf } from '@/app/messages/moments.ts'
import { useAnswer } from '@/app/use-answer.ts'
import { Invitation, InvitationList, type ProgrammeDetail } from '@/lib/interchange/api.ts'
import { InvitationForm } from './invitation-form.tsx'
import styles from './invitations.module.css'
import page from './page.module.css'

/** The links into a programme and its cases: made, listed and revoked by the owner. */
export function Invitations({ detail }: { detail: ProgrammeDetail }) {
  const { invitations: text } = useMessages()
  const { answer, reload } = useAnswer('/api/invitations', InvitationList)
  const [isOpen, setOpen] = useState(false)
  const inProgramme = ({ scope }: Invitation) =>
    (scope.kind === 'programme' && scope.id === detail.programme.id) ||
    (scope.kind === 'case' && detail.cases.some(({ id }) => id === scope.id))
  return (
    <section className={page.section} aria-labelledby="invitations">
      <div className={page.sectionHead}>
        <h2 className={page.sectionTitle} id="invitations">
          {text.title}
        </h2>
        <Button onClick={() => setOpen(true)}>{text.invite}</Button>
      </div>
      {answer.state === 'failed' && (
        <p className={page.fault} role="alert">
          {answer.reason}
        </p>
      )}
      {answer.state === 'ready' && answer.value.invitations.filter(inProgramme).length === 0 && (
        <EmptyHint title={text.none}>{text.noneHint}</EmptyHint>
      )}
      {answer.state === 'ready' && (
        <ul>
          {answer.value.invitations.filter(inProgramme).map((invitation) => (
            <InvitationRow key={invitation.id} invitation={invitation} detail={detail} onRevoked={reload} />
          ))}
        </ul>
      )}
      <InvitationForm open={isOpen} onClose={() => setOpen(false)} detail={detail} onCreated={reload} />
    </section>
  )
}

type LinkState = 'open' | 'expired' | 'revoked'

function stateOf({ revokedAt, expiresAt }: Invitation, nowMs: number): LinkState {
  if (revokedAt !== null) return 'revoked'
  return expiresAt !== null && Date.parse(expiresAt) <= nowMs ? 'expired' : 'open'
}

interface InvitationRowProps {
  readonly invitation: Invitation
  readonly detail: ProgrammeDetail
  readonly onRevoked: () => void
}

function InvitationRow({ invitation, detail, onRevoked }: InvitationRowProps) {
  const { invitations: text, words } = useMessages()
  const say = useSay()
  const [isAsking, setAsking] = useState(false)
  const state = stateOf(invitation, Date.now())
  const { scope, expiresAt, uses } = invitation
  const place = scope.kind === 'case' ? detail.cases.find(({ id }) => id === scope.id)?.label : text.wholeProgramme
  const revoke = async () => {
    try {
      await askApi(`/api/invitations/${invitation.id}/revoke`, Invitation, { method: 'POST', body: {} })
      say(text.revoked)
      onRevoked()
    } catch (error) {
      say(sentenceOfFault(error))
    }
    setAsking(false)
  }
  return (
    <li className={styles.row} data-state={state}>
      <div>
        <p className={styles.label}>{invitation.label}</p>
        <p className={styles.facts}>
          {words.role[invitation.role]}, {place}. {text.uses(uses)}{' '}
          {expiresAt !== null && state !== 'revoked' && text.expires(dayAndClockOf(expiresAt), state === 'expired')}
        </p>
      </div>
      <StateSign tone={state === 'open' ? 'good' : state === 'expired' ? 'caution' : 'stop'}>
        {text.state[state]}
      </StateSign>
      <div className={styles.acts}>
        {state !== 'revoked' && !isAsking && (
          <Button tone="stop" onClick={() => setAsking(true)} aria-label={text.revokeOf(invitation.label)}>
            {text.revoke}
          </Button>
        )}
        {isAsking && (
          <>
            <span>{text.revokeQuestion(uses)}</span>
            <Button tone="stop" onClick={revoke}>
              {text.revokeYes}
            </Button>
            <Button onClick={() => setAsking(false)}>{text.keep}</Button>
          </>
        )}
      </div>
    </li>
  )
}
