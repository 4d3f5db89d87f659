'use client'

import { type ReactNode, useEffect, useMemo, useState, useSyncExternalStore } from 'react'
import { askApi, sentenceOfFault } from '@/app/api-client.ts'
import { type Messages, useMessages } from '@/app/messages/use-messages.ts'
import type { CaseId, ParticipantId } from '@/lib/board/identity.ts'
import { kindOf } from '@/lib/board/records.ts'
import { closeCode } from '@/lib/board/wire.ts'
import { CaseDetail, Me as MeAnswer, PeopleOfCase } from '@/lib/interchange/api.ts'
import {
  type Board,
  BoardContext,
  type BoardStatus,
  BoardStatusContext,
  type Link,
  PeopleContext,
  type Person,
} from './board-context.tsx'
import { BoardConnection, type ConnectionSnapshot } from './connection/board-connection.ts'
import { writeAgain } from './connection/drafts.ts'
import { browserText } from './connection/kept-text.ts'
import { storageWorks } from './connection/local-copy.ts'
import { OpeningNotice } from './opening-notice.tsx'
import { PostGuardProvider } from './post-guard.tsx'
import { ShortcutsProvider } from './shortcuts.tsx'

type Opening =
  | { readonly state: 'opening' }
  | { readonly state: 'failed'; readonly reason: string }
  | {
      readonly state: 'open'
      readonly connection: BoardConnection
      readonly detail: CaseDetail
      readonly people: PeopleOfCase['people']
    }

const newId = (): string => crypto.randomUUID()
const now = (): Date => new Date()

async function openBoard(caseId: CaseId, signal: AbortSignal): Promise<Opening & { state: 'open' }> {
  const path = `/api/cases/${encodeURIComponent(caseId)}` as const
  const [me, detail, { people }, keepsCopies] = await Promise.all([
    askApi('/api/me', MeAnswer, { signal }),
    askApi(path, CaseDetail, { signal }),
    askApi(`${path}/people`, PeopleOfCase, { signal }),
    storageWorks(),
  ])
  signal.throwIfAborted()
  const person = me.participant
  if (person === null) throw new TypeError('a case answered to nobody')
  const connection = new BoardConnection({
    caseId,
    me: { participant: person.id, name: person.name, affiliation: person.affiliation, role: detail.case.role },
    serverUrl: `${location.protocol === 'https:' ? 'wss' : 'ws'}://${location.host}/sync`,
    kept: browserText,
    keepsCopies,
    now,
    newId,
    reopen: () => location.reload(),
  })
  return { state: 'open', connection, detail, people }
}

/** Opens a case's documents for whoever is signed in, and closes them when it leaves the page. */
export function BoardProvider({ caseId, children }: { caseId: CaseId; children: ReactNode }) {
  const [opening, setOpening] = useState<Opening>({ state: 'opening' })
  useEffect(() => {
    const leaving = new AbortController()
    let connection: BoardConnection | undefined
    openBoard(caseId, leaving.signal).then(
      (open) => {
        connection = open.connection
        setOpening(open)
      },
      (error: unknown) => {
        if (!leaving.signal.aborted) setOpening({ state: 'failed', reason: sentenceOfFault(error) })
      },
    )
    return () => {
      leaving.abort()
      connection?.destroy()
      setOpening({ state: 'opening' })
    }
  }, [caseId])
  if (opening.state !== 'open')
    return <OpeningNotice reason={opening.state === 'failed' ? opening.reason : undefined} />
  return (
    <Connected connection={opening.connection} detail={opening.detail} listed={opening.people}>
      {children}
    </Connected>
  )
}

interface ConnectedProps {
  readonly connection: BoardConnection
  readonly detail: CaseDetail
  readonly listed: PeopleOfCase['people']
  readonly children: ReactNode
}

function Connected({ connection, detail, listed, children }: ConnectedProps) {
  const messages = useMessages()
  const snapshot = useSyncExternalStore(connection.subscribe, connection.getSnapshot, connection.getSnapshot)
  useReconnecting(connection)
  useStorageFaults(connection)
  const { record, floor, awareness, roster } = snapshot
  const board = useMemo<Board>(() => {
    const { caseId, me } = connection.options
    const { label } = detail.case
    const pen = { participant: me.participant, now, newId }
    return { caseId, me, label, programme: detail.programme, record, floor, awareness, pen }
  }, [connection, detail, record, floor, awareness])
  const status = useMemo(() => statusOf(connection, snapshot, board, messages), [connection, snapshot, board, messages])
  const people = useMemo(() => peopleOf(listed, roster.people, connection), [listed, roster.people, connection])
  if (status.link.state === 'refused-entry') return <OpeningNotice reason={status.link.reason} />
  return (
    <BoardContext value={board}>
      <PeopleContext value={people}>
        <BoardStatusContext value={status}>
          <ShortcutsProvider>
            <PostGuardProvider>{children}</PostGuardProvider>
          </ShortcutsProvider>
        </BoardStatusContext>
      </PeopleContext>
    </BoardContext>
  )
}

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
    stored: isStored ? 'stored' : link === 'live' ? 'storing' : 'not-stored-offline',
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

function linkOf({ link, closed }: ConnectionSnapshot, { board }: Messages): Link {
  if (link !== 'closed') return { state: link }
  return { state: 'refused-entry', reason: closed?.code === closeCode.revoked ? board.revoked : board.notAllowed }
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
