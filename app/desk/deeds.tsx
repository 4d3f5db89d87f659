'use client'

import { createContext, type ReactNode, useCallback, useContext, useEffect, useMemo, useRef, useState } from 'react'
import { PeopleContext, useBoard, useTable } from '@/app/board/board-context.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-desk.ts'
import { type Deed, rememberEdit, stillStands, takeBack } from '@/lib/board/edits/take-back.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import { readRecord } from '@/lib/board/reading.ts'
import type { DocumentKind, KindName } from '@/lib/board/records.ts'

/** How long an act can be taken back. */
export const takeBackMs = 10_000

/** One press of a key: what it did to either document. The documents themselves are replaced after a refusal. */
interface Act {
  readonly turn: number
  readonly label: string
  /** the question that it was about */
  readonly question: RecordId | undefined
  readonly parts: readonly { readonly document: DocumentKind; readonly altered: Deed['altered'] }[]
}

/** What a moderator is told about an act of theirs that met another's. */
interface Met {
  readonly sentence: string
  readonly text: string
}

interface Deeds {
  /** Makes edits of one act, which can be taken back for a while. */
  act(label: string, edits: ActEdits): void
  readonly last: Act | undefined
  takeBackLast(): void
  readonly met: Met | undefined
  dismissMet(): void
}

export interface ActEdits {
  readonly question?: RecordId
  /** of each document: the kinds that the edit changes, and the edit */
  readonly floor?: () => void
  readonly record?: { readonly kinds: readonly KindName[]; readonly edit: () => void }
}

const DeedsContext = createContext<Deeds | undefined>(undefined)

/** @throws TypeError outside a DeedsProvider */
export function useDeeds(): Deeds {
  const deeds = useContext(DeedsContext)
  if (deeds === undefined) throw new TypeError('useDeeds needs a DeedsProvider above it')
  return deeds
}

/** Remembers for ten seconds what was done, takes it back, and tells when somebody else acted on the same question. */
export function DeedsProvider({ children }: { children: ReactNode }) {
  const board = useBoard()
  const { desk } = useMessages()
  const say = useSay()
  const [acts, setActs] = useState<readonly Act[]>([])
  // As of now and not of the last draw: who takes back at once means what they have just done.
  const standing = useRef(acts)
  const change = useCallback((next: readonly Act[]) => {
    standing.current = next
    setActs(next)
  }, [])
  const turns = useRef(0)
  const timers = useRef(new Set<ReturnType<typeof setTimeout>>())
  useEffect(() => {
    const running = timers.current
    return () => {
      for (const timer of running) clearTimeout(timer)
    }
  }, [])
  const forget = useCallback((turn: number) => change(standing.current.filter((one) => one.turn !== turn)), [change])
  const act = useCallback<Deeds['act']>(
    (label, { question, floor, record }) => {
      const parts: Act['parts'][number][] = []
      if (floor !== undefined)
        parts.push({ document: 'floor', altered: rememberEdit(board.floor, ['questions'], floor).altered })
      if (record !== undefined)
        parts.push({ document: 'record', altered: rememberEdit(board.record, record.kinds, record.edit).altered })
      if (parts.every(({ altered }) => altered.length === 0)) return
      const turn = ++turns.current
      change([...standing.current, { turn, label, question, parts }])
      const timer = setTimeout(() => {
        timers.current.delete(timer)
        forget(turn)
      }, takeBackMs)
      timers.current.add(timer)
    },
    [board, change, forget],
  )
  const takeBackLast = useCallback(() => {
    const last = standing.current.at(-1)
    if (last === undefined) return
    const deeds = last.parts.map(({ document, altered }) => ({ doc: board[document], altered }))
    forget(last.turn)
    // Both or neither: a question that somebody answered since stays on the screen where it was put.
    if (!deeds.every(stillStands)) return say(desk.undo.changed)
    for (const deed of deeds) takeBack(board.pen, deed, desk.undo.reason)
    say(desk.undo.taken(last.label))
  }, [board, desk, say, forget])
  const { met, dismissMet } = useMet(acts, forget)
  const last = acts.at(-1)
  const value = useMemo(
    () => ({ act, last, takeBackLast, met, dismissMet }),
    [act, last, takeBackLast, met, dismissMet],
  )
  return <DeedsContext value={value}>{children}</DeedsContext>
}

/** Looks at every change of the questions whether it undid what was just done here: then somebody acted at the same time. */
function useMet(acts: readonly Act[], forget: (turn: number) => void) {
  const { floor, me } = useBoard()
  const { desk, words } = useMessages()
  const people = useContext(PeopleContext)
  const questions = useTable('questions')
  const [met, setMet] = useState<Met>()
  useEffect(() => {
    if (questions.length === 0 && acts.length === 0) return
    for (const { turn, question, parts } of acts) {
      const altered = parts.find(({ document }) => document === 'floor')?.altered
      // An own act that followed on the same question has changed it.
      const isLast = !acts.some((later) => later.turn > turn && later.question === question)
      if (question === undefined || altered === undefined || !isLast || stillStands({ doc: floor, altered })) continue
      const now = readRecord(floor, 'questions', question)
      if (now?.movedBy === me.participant) continue
      forget(turn)
      const name = people.get(now?.movedBy ?? '')?.name ?? desk.undo.somebody
      setMet(
        now === undefined
          ? { sentence: desk.undo.gone, text: '' }
          : {
              sentence: desk.undo.met(
                name,
                now.foldedInto === undefined ? words.questionState[now.state] : desk.undo.joinedState,
              ),
              text: now.text,
            },
      )
    }
  }, [acts, questions, floor, me.participant, people, desk, words, forget])
  const dismissMet = useCallback(() => setMet(undefined), [])
  return { met, dismissMet }
}
