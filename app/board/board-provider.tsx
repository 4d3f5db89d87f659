'use client'

import { lazy, type ReactNode, Suspense, useEffect, useMemo, useState, useSyncExternalStore } from 'react'
import type * as Y from 'yjs'
import { ApiFault, sentenceOfFault } from '@/app/api-client.ts'
import { type Messages, useMessages } from '@/app/messages/use-messages.ts'
import { knownOffset, serverNow } from '@/app/server-clock.ts'
import { videoDelayOf } from '@/lib/board/edits/video-delay.ts'
import type { CaseId, ParticipantId } from '@/lib/board/identity.ts'
import { kindOf } from '@/lib/board/records.ts'
import { tableReading } from '@/lib/board/table-reading.ts'
import type { CaseDetail, PeopleOfCase } from '@/lib/interchange/api.ts'
import {
  type Board,
  BoardContext,
  type BoardStatus,
  BoardStatusContext,
  type Link,
  PeopleContext,
  type Person,
} from './board-context.tsx'
import type { BoardConnection, ConnectionSnapshot } from './connection/board-connection.ts'
import { writeAgain } from './connection/drafts.ts'
import { closingSentence, type OpenedBoard, openBoard } from './open-board.ts'
import { OpeningNotice } from './opening-notice.tsx'
import { PostGuardProvider } from './post-guard.tsx'
import { ShortcutsProvider } from './shortcuts.tsx'
import { UnnamedContext, unnamedIn, useUnnamedOnBoard } from './unnamed-authors.ts'

const TellUnnamed = lazy(() => import('./tell-unnamed.tsx'))

type Opening =
  | { readonly state: 'opening' }
  | { readonly state: 'failed'; readonly reason: string }
  | ({ readonly state: 'open' } & OpenedBoard)

/** A page that nobody touches has to open by itself once the server is back. */
const retryMs = 2000
const passing: readonly unknown[] = ['no-link', 'unavailable']

/** The owner erased the case: what this browser kept of it goes too. */
const dropCopies = async (caseId: CaseId) => (await import('@/app/exchange/forget-case.ts')).forgetCase(caseId)

type Notice = (reason: string | undefined) => ReactNode
const wholePageNotice: Notice = (reason) => <OpeningNotice reason={reason} />

interface BoardProviderProps {
  readonly caseId: CaseId
  /** what stands there until the case is open, or, with a reason, because it cannot be */
  readonly notice?: Notice
  readonly children: ReactNode
}

/** Opens a case's documents for whoever is signed in, and closes them when it leaves the page. */
export function BoardProvider({ caseId, notice = wholePageNotice, children }: BoardProviderProps) {
  const [opening, setOpening] = useState<Opening>({ state: 'opening' })
  useEffect(() => {
    const leaving = new AbortController()
    let connection: BoardConnection | undefined
    let retry: ReturnType<typeof setTimeout> | undefined
    const open = () =>
      openBoard(caseId, leaving.signal).then(
        (opened) => {
          connection = opened.connection
          if (leaving.signal.aborted) return connection.destroy()
          setOpening({ state: 'open', ...opened })
        },
        (error: unknown) => {
          if (leaving.signal.aborted) return
          if (error instanceof ApiFault && error.code === 'case-erased') void dropCopies(caseId)
          setOpening({ state: 'failed', reason: sentenceOfFault(error) })
          if (error instanceof ApiFault && passing.includes(error.code)) retry = setTimeout(open, retryMs)
        },
      )
    void open()
    return () => {
      leaving.abort()
      clearTimeout(retry)
      connection?.destroy()
      setOpening({ state: 'opening' })
    }
  }, [caseId])
  if (opening.state !== 'open') return notice(opening.state === 'failed' ? opening.reason : undefined)
  return (
    <Connected connection={opening.connection} detail={opening.detail} listed={opening.people} notice={notice}>
      {children}
    </Connected>
  )
}

interface ConnectedProps {
  readonly connection: BoardConnection
  readonly detail: CaseDetail
  readonly listed: PeopleOfCase['people']
  readonly notice: Notice
  readonly children: ReactNode
}

function Connected({ connection, detail, listed, notice, children }: ConnectedProps) {
  const messages = useMessages()
  const snapshot = useSyncExternalStore(connection.subscribe, connection.getSnapshot, connection.getSnapshot)
  useReconnecting(connection)
  useStorageFaults(connection)
  const { record, floor, awareness, roster } = snapshot
  const board = useMemo<Board>(() => {
    const { caseId, me } = connection.options
    const { label } = detail.case
    const videoDelayMs = () => ownDelayMs(floor, me.participant)
    const pen = { participant: me.participant, now: serverNow, newId: () => crypto.randomUUID(), videoDelayMs }
    return { caseId, me, label, programme: detail.programme, record, floor, awareness, pen }
  }, [connection, detail, record, floor, awareness])
  const status = useMemo(() => statusOf(connection, snapshot, board, messages), [connection, snapshot, board, messages])
  const { subscribe, getSnapshot } = tableReading(floor, 'questions')
  const questions = useSyncExternalStore(subscribe, getSnapshot, getSnapshot)
  const authors = useMemo(() => unnamedIn(questions), [questions])
  const mayAsk = kindOf('questions').create.includes(board.me.role)
  const { unnamed, onTold } = useUnnamedOnBoard()
  const people = useMemo(() => {
    const nameless = authors.map((author) => [author, { ...messages.board.unnamed, role: 'panel' as const }] as const)
    return new Map<ParticipantId, Person>([...peopleOf(listed, roster.people, connection), ...nameless])
  }, [listed, roster.people, connection, authors, messages])
  if (status.link.state === 'refused-entry') return notice(status.link.reason)
  return (
    <BoardContext value={board}>
      <PeopleContext value={people}>
        <UnnamedContext value={unnamed}>
          {mayAsk && authors.length > 0 && (
            <Suspense>
              <TellUnnamed caseId={board.caseId} authors={authors} isLive={snapshot.link === 'live'} onTold={onTold} />
            </Suspense>
          )}
          <BoardStatusContext value={status}>
            <ShortcutsProvider>
              <PostGuardProvider>{children}</PostGuardProvider>
            </ShortcutsProvider>
          </BoardStatusContext>
        </UnnamedContext>
      </PeopleContext>
    </BoardContext>
  )
}

/** A moment of the picture is told by the server's clock, so without that clock it is not told at all. */
const ownDelayMs = (floor: Y.Doc, participant: ParticipantId): number | undefined =>
  knownOffset() === undefined ? undefined : videoDelayOf(floor, participant)

/** The device tells that its network came or went before a socket notices. */
function useReconnecting(connection: BoardConnection): void {
  useEffect(() => {
    const reconnect = () => connection.reconnect()
    addEventListener('online', reconnect)
    addEventListener('offline', reconnect)
    return () => {
      removeEventListener('online', reconnect)
      removeEventListener('offline', reconnect)
    }
  }, [connection])
}

/** y-indexeddb leaves its failed writes to nobody; they mean that the disk is full. */
function useStorageFaults(connection: BoardConnection): void {
  useEffect(() => {
    const onRejection = (event: PromiseRejectionEvent) => {
      if (!String(event.reason).includes('QuotaExceededError')) return
      event.preventDefault()
      connection.storageFailed()
    }
    addEventListener('unhandledrejection', onRejection)
    return () => removeEventListener('unhandledrejection', onRejection)
  }, [connection])
}

function statusOf(
  connection: BoardConnection,
  snapshot: ConnectionSnapshot,
  board: Board,
  messages: Messages,
): BoardStatus {
  const { link, isStored, roster, drafts, refused } = snapshot
  return {
    link: linkOf(snapshot, messages),
    stored: isStored ? 'stored' : link === 'live' ? 'storing' : 'kept-here',
    roster,
    keepsCopy: snapshot.keepsCopies,
    drafts,
    discardDraft: (id) => connection.discardDraft(id),
    retryDraft: (id) => {
      const draft = drafts.find((candidate) => candidate.id === id)
      if (draft === undefined) return false
      const doc = snapshot[kindOf(draft.kind).document]
      if (!writeAgain(doc, board.pen, draft)) return false
      connection.discardDraft(id)
      return true
    },
    refused,
    dismissRefused: () => connection.dismissRefused(),
  }
}

function linkOf({ link, closed }: ConnectionSnapshot, messages: Messages): Link {
  if (link !== 'closed') return { state: link }
  return { state: 'refused-entry', reason: closingSentence(closed?.code, messages) }
}

function peopleOf(
  listed: PeopleOfCase['people'],
  present: ConnectionSnapshot['roster']['people'],
  { options: { me } }: BoardConnection,
): ReadonlyMap<ParticipantId, Person> {
  const people = new Map<ParticipantId, Person>()
  for (const { id, name, affiliation, role } of listed) people.set(id, { name, affiliation, role })
  for (const { id, name, affiliation, role } of present) people.set(id, { name, affiliation, role })
  return people.set(me.participant, me)
}
