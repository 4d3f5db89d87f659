'use client'

import { createContext, useCallback, useContext, useMemo, useSyncExternalStore } from 'react'
import type { Awareness } from 'y-protocols/awareness'
import type * as Y from 'yjs'
import { type Thread, threadsOf } from '@/lib/board/edits/floor.ts'
import type { Pen } from '@/lib/board/edits/writing.ts'
import { type CaseId, onlyId, type ParticipantId, type RecordId } from '@/lib/board/identity.ts'
import { type DocumentKind, type KindName, kindOf, type RecordOf } from '@/lib/board/records.ts'
import { type Rights, rightsOf } from '@/lib/board/rights.ts'
import type { Role } from '@/lib/board/roles.ts'
import { tableReading } from '@/lib/board/table-reading.ts'
import type { Roster } from '@/lib/board/wire.ts'
import type { Draft } from './connection/drafts.ts'

export { useMessages } from '@/app/messages/use-messages.ts'

export interface Person {
  readonly name: string
  readonly affiliation: string
  /** null when their access has ended */
  readonly role: Role | null
}

export interface Me extends Person {
  readonly participant: ParticipantId
  readonly role: Role
}

/**
 * What stays the same while a case is open (the documents are replaced after a refused edit; hooks follow by
 * themselves). Everything here loads Yjs: import it only below a `dynamic(..., { ssr: false })`.
 */
export interface Board {
  readonly caseId: CaseId
  readonly me: Me
  /** what lists call the case; the header's pseudonym once there is one */
  readonly label: string
  readonly programme: { readonly id: string; readonly label: string }
  readonly record: Y.Doc
  readonly floor: Y.Doc
  /** signs edits of lib/board/edits with this person, the clock and new ids */
  readonly pen: Pen
  /** presence, carried by the record document's socket */
  readonly awareness: Awareness
}

/** `store-away`: the server can store nothing at present. `refused-entry`: it closed for good (revoked, not allowed); `reason` says why. */
export type Link =
  | { readonly state: 'connecting' | 'live' | 'offline' | 'store-away' }
  | { readonly state: 'refused-entry'; readonly reason: string }

/** Whether everything written here is stored by the server. */
export type Storing = 'stored' | 'storing' | 'kept-here'

/** What changes from second to second; kept apart so that panes do not draw again with it. */
export interface BoardStatus {
  readonly link: Link
  readonly stored: Storing
  readonly roster: Roster
  /** false when this browser keeps no copy for work offline (storage denied or full) */
  readonly keepsCopy: boolean
  /** what was refused and is kept for its writer */
  readonly drafts: readonly Draft[]
  discardDraft(id: string): void
  /** writes the draft again as an edit; false when it has no place to go */
  retryDraft(id: string): boolean
  /** the reason of the last refusal, until dismissed */
  readonly refused: string | undefined
  dismissRefused(): void
}

export const BoardContext = createContext<Board | undefined>(undefined)
export const BoardStatusContext = createContext<BoardStatus | undefined>(undefined)
export const PeopleContext = createContext<ReadonlyMap<ParticipantId, Person>>(new Map())

/** @throws TypeError outside a BoardProvider */
export function useBoard(): Board {
  const board = useContext(BoardContext)
  if (board === undefined) throw new TypeError('useBoard needs a BoardProvider above it')
  return board
}

/** @throws TypeError outside a BoardProvider */
export function useBoardStatus(): BoardStatus {
  const status = useContext(BoardStatusContext)
  if (status === undefined) throw new TypeError('useBoardStatus needs a BoardProvider above it')
  return status
}

/** The document that records of a kind live in. */
export const useDocumentOf = (kind: KindName): Y.Doc => useBoard()[kindOf(kind).document]

/** All valid records of a kind, in no particular order; array and records keep their identity while unchanged. */
export function useTable<K extends KindName>(kind: K): readonly RecordOf<K>[] {
  const { subscribe, getSnapshot } = tableReading(useDocumentOf(kind), kind)
  return useSyncExternalStore(subscribe, getSnapshot, getSnapshot)
}

export function useRecord<K extends KindName>(kind: K, id: RecordId): RecordOf<K> | undefined {
  const { subscribe, record } = tableReading(useDocumentOf(kind), kind)
  const read = useCallback(() => record(id), [record, id])
  return useSyncExternalStore(subscribe, read, read)
}

/** The record that there is one of: header, plan, mainScreen. */
export const useSingle = <K extends KindName>(kind: K): RecordOf<K> | undefined => useRecord(kind, onlyId)

/** Questions with what is folded into them, their replies and backers, by rank. */
export function useThreads(): readonly Thread[] {
  const questions = useTable('questions')
  const replies = useTable('replies')
  const backings = useTable('backings')
  return useMemo(() => threadsOf(questions, replies, backings), [questions, replies, backings])
}

/** Name, affiliation and role of whoever wrote something, present or not; undefined when the server does not list them. */
export const usePerson = (participant: ParticipantId): Person | undefined => useContext(PeopleContext).get(participant)

/** What this person may do, from the same table that the server's guard reads. */
export function useMay(): Rights {
  const { me } = useBoard()
  return useMemo(() => rightsOf({ participant: me.participant, role: me.role }), [me.participant, me.role])
}

export type { DocumentKind, Draft, Rights }
