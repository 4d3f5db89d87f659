'use client'

import { useCallback, useEffect, useState } from 'react'
import { sentenceOfFault, tellApi } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-leave.ts'
import { Masthead } from '@/app/overview/masthead.tsx'
import { useAnswer } from '@/app/use-answer.ts'
import { Me } from '@/lib/interchange/api.ts'
import { forgetEverything, type KeptHere, keptHere } from './kept-here.ts'
import styles from './leave-page.module.css'

type Left = 'not-yet' | 'gone' | 'held'

/** For a computer that others use too: signs out and removes what this browser keeps. No case is open on it. */
export function LeavePage() {
  const { leave } = useMessages()
  const [left, setLeft] = useState<Left>('not-yet')
  const forget = useCallback(async () => setLeft((await forgetEverything()) ? 'gone' : 'held'), [])
  return (
    <>
      <Masthead />
      <main className={styles.page}>
        {left === 'not-yet' && (
          <>
            <h1>{leave.title}</h1>
            <p className={styles.lead}>{leave.lead}</p>
            <Leaving forget={forget} />
          </>
        )}
        <div className={styles.part} role="status">
          {left === 'gone' && (
            <>
              <h1>{leave.done}</h1>
              <p>{leave.doneHint}</p>
            </>
          )}
          {left === 'held' && (
            <>
              <h1>{leave.held}</h1>
              <p>{leave.heldHint}</p>
            </>
          )}
        </div>
        {left === 'held' && (
          <div className={styles.acts}>
            <Button tone="accent" onClick={forget}>
              {leave.again}
            </Button>
          </div>
        )}
      </main>
    </>
  )
}

function Leaving({ forget }: { readonly forget: () => Promise<void> }) {
  const { leave, shell } = useMessages()
  const { answer } = useAnswer('/api/me', Me)
  const [kept, setKept] = useState<KeptHere>()
  const [fault, setFault] = useState<string>()
  useEffect(() => {
    keptHere().then(setKept, () => setKept({ cases: 0, unstored: 0, drafts: 0 }))
  }, [])
  if (answer.state === 'asking' || kept === undefined) return <p role="status">{shell.loading}</p>
  const person = answer.state === 'ready' ? answer.value.participant : null
  const isLosing = kept.unstored + kept.drafts > 0
  const go = async () => {
    setFault(undefined)
    try {
      if (person !== null) await tellApi('/api/leave', { method: 'POST', body: {} })
      await forget()
    } catch (error) {
      setFault(sentenceOfFault(error))
    }
  }
  const trouble = fault ?? (answer.state === 'failed' ? answer.reason : undefined)
  return (
    <div className={styles.part}>
      {answer.state === 'ready' && (
        <p>{person === null ? leave.nobody : leave.known(person.name, person.affiliation)}</p>
      )}
      <p>{leave.kept(kept.cases)}</p>
      {person !== null && <p>{leave.stays}</p>}
      {isLosing && <p className={styles.losing}>{leave.lost(kept.unstored, kept.drafts)}</p>}
      {trouble !== undefined && (
        <p className={styles.fault} role="alert">
          {trouble}
        </p>
      )}
      <div className={styles.acts}>
        <Button tone={isLosing ? 'stop' : 'accent'} onClick={go} disabled={answer.state === 'failed'}>
          {isLosing ? leave.actDespite : leave.act}
        </Button>
        <Button onClick={() => history.back()}>{leave.back}</Button>
      </div>
    </div>
  )
}
