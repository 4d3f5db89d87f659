'use client'

import { useCallback, useEffect, useState } from 'react'
import * as Y from 'yjs'
import { askBytes, sentenceOfFault } from '@/app/api-client.ts'
import type { CaseId } from '@/lib/board/identity.ts'
import { decodeMomentState } from '@/lib/interchange/moment-state.ts'

/** Both documents of a case as they were. Nobody writes in them. */
export interface OpenedMoment {
  readonly atMs: number
  readonly record: Y.Doc
  readonly floor: Y.Doc
}

export interface MomentState {
  /** the last moment that could be opened, until the wanted one is */
  readonly opened: OpenedMoment | undefined
  /** why the wanted moment could not be opened */
  readonly fault: string | undefined
  readonly retry: () => void
}

/** A slider that is moved asks for a moment only when it rests: each is a whole state. */
const restMs = 120

/** Opens the wanted moment. */
export function useMoment(caseId: CaseId, wantedMs: number): MomentState {
  const [opened, setOpened] = useState<OpenedMoment>()
  const [fault, setFault] = useState<string>()
  const [attempt, setAttempt] = useState(0)
  // biome-ignore lint/correctness/useExhaustiveDependencies: each attempt asks anew
  useEffect(() => {
    const leaving = new AbortController()
    const open = async () => {
      try {
        const moment = await openMoment(caseId, wantedMs, leaving.signal)
        leaving.signal.throwIfAborted()
        setOpened(moment)
        setFault(undefined)
      } catch (error) {
        if (!leaving.signal.aborted) setFault(sentenceOfFault(error))
      }
    }
    const timer = setTimeout(open, restMs)
    return () => {
      clearTimeout(timer)
      leaving.abort()
    }
  }, [caseId, wantedMs, attempt])
  return { opened, fault, retry: useCallback(() => setAttempt((count) => count + 1), []) }
}

async function openMoment(caseId: CaseId, atMs: number, signal: AbortSignal): Promise<OpenedMoment> {
  const at = new Date(atMs).toISOString()
  const bytes = await askBytes(`/api/cases/${encodeURIComponent(caseId)}/moments/${at}`, { signal })
  const { record, floor } = decodeMomentState(bytes)
  return { atMs, record: docOf(record), floor: docOf(floor) }
}

function docOf(updates: readonly Uint8Array[]): Y.Doc {
  const doc = new Y.Doc()
  doc.transact(() => {
    for (const update of updates) Y.applyUpdate(doc, update)
  })
  return doc
}
