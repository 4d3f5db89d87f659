'use client'

import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-desk.ts'
import { useDeeds } from './deeds.tsx'
import { KeyHint } from './key-hint.tsx'
import styles from './undo-bar.module.css'

/** What was just done and how to take it back, quietly at the foot of the desk; and what somebody else did at the same time. */
export function UndoBar() {
  const { desk } = useMessages()
  const { last, takeBackLast, met, dismissMet } = useDeeds()
  return (
    <section className={styles.bar} aria-label={desk.undo.title}>
      <div role="alert">
        {met !== undefined && (
          <p className={styles.met}>
            <span aria-hidden="true">△</span>
            <span className={styles.sentence} dir="auto">
              <b>{met.sentence}</b> {met.text !== '' && desk.undo.question(met.text)}
            </span>
            <Button tone="quiet" onClick={dismissMet}>
              {desk.undo.seen}
            </Button>
          </p>
        )}
      </div>
      {last === undefined && met === undefined && <p className={styles.nothing}>{desk.undo.nothing}</p>}
      <div role="status">
        {last !== undefined && (
          <p className={styles.done} key={last.turn}>
            <span className={styles.sentence}>{last.label}</span>
            <Button tone="quiet" onClick={takeBackLast}>
              {desk.undo.take} <KeyHint>z</KeyHint>
            </Button>
          </p>
        )}
      </div>
    </section>
  )
}
