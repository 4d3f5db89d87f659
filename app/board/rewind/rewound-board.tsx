'use client'

import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-rewind.ts'
import { useBoard, useSingle } from '../board-context.tsx'
import { BoardPanes } from '../frame/board-panes.tsx'
import { type Shortcut, useShortcuts } from '../shortcuts.tsx'
import { wallClock } from './clock-words.ts'
import { EarlierBoard } from './earlier-board.tsx'
import styles from './rewound-board.module.css'
import { TimeBar } from './time-bar.tsx'
import { type OpenedMoment, useMoment } from './use-moment.ts'
import { type Session, useTimeline } from './use-timeline.ts'

interface EndProps {
  readonly onEnd: () => void
}

/** The board as it was at any moment of its session, to look at and to compare. */
export default function RewoundBoard({ onEnd }: EndProps) {
  const { rewind } = useMessages()
  const { caseId } = useBoard()
  const { timeline, retry } = useTimeline(caseId)
  useShortcuts(
    rewind.keys,
    useMemo<Shortcut[]>(() => [{ key: 'Escape', does: rewind.backToNow, act: onEnd }], [rewind, onEnd]),
  )
  if (timeline.state === 'open') return <Rewound session={timeline.session} onEnd={onEnd} />
  return (
    <Waiting onEnd={onEnd}>
      {timeline.state === 'opening' && rewind.openingTimeline}
      {timeline.state === 'empty' && rewind.nothingYet}
      {timeline.state === 'failed' && (
        <>
          {timeline.reason} <Button onClick={retry}>{rewind.tryAgain}</Button>
        </>
      )}
    </Waiting>
  )
}

function Rewound({ session, onEnd }: EndProps & { readonly session: Session }) {
  const { rewind } = useMessages()
  const { caseId } = useBoard()
  const [wantedMs, setWanted] = useState(session.scale.toMs)
  const [held, setHeld] = useState<OpenedMoment>()
  const moment = useMoment(caseId, wantedMs)
  const { opened, fault, retry } = moment
  if (opened === undefined)
    return (
      <Waiting onEnd={onEnd}>
        {fault === undefined ? (
          rewind.openingMoment(wallClock(wantedMs))
        ) : (
          <>
            {fault} <Button onClick={retry}>{rewind.tryAgain}</Button>
          </>
        )}
      </Waiting>
    )
  return (
    <EarlierBoard moment={opened}>
      <div className={styles.frame}>
        <BoardPanes
          when="earlier"
          isCalm
          above={() => <Banner atMs={opened.atMs} onEnd={onEnd} />}
          below={
            <TimeBar
              session={session}
              wantedMs={wantedMs}
              moment={{ ...moment, opened }}
              held={held}
              onMove={setWanted}
              onHold={setHeld}
            />
          }
        />
      </div>
    </EarlierBoard>
  )
}

function Banner({ atMs, onEnd }: EndProps & { readonly atMs: number }) {
  const { rewind, shell } = useMessages()
  const { label } = useBoard()
  const name = useSingle('header')?.pseudonym ?? label
  const asItWas = rewind.asItWas(wallClock(atMs))
  return (
    <header className={styles.banner}>
      <title>{`${asItWas} - ${name} - ${shell.productName}`}</title>
      <h1 className={styles.title}>{asItWas}</h1>
      <p className={styles.name}>
        <strong>{name}</strong> {rewind.readOnly}
      </p>
      <Button tone="accent" onClick={onEnd}>
        {rewind.backToNow}
      </Button>
    </header>
  )
}

function Waiting({ onEnd, children }: EndProps & { readonly children: ReactNode }) {
  const { rewind } = useMessages()
  return (
    <main className={styles.waiting}>
      <p role="status">{children}</p>
      <Button onClick={onEnd}>{rewind.backToNow}</Button>
    </main>
  )
}
