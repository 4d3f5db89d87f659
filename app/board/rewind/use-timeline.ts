'use client'

import { useCallback, useEffect, useState } from 'react'
import { askApi, sentenceOfFault } from '@/app/api-client.ts'
import type { CaseId } from '@/lib/board/identity.ts'
import { type MarkedMoment, SessionTimeline } from '@/lib/interchange/session-timeline.ts'
import { type TimeScale, timeScale } from './time-scale.ts'

/** What happened in a session, and where on its time line. */
export interface Session {
  readonly scale: TimeScale
  readonly marks: readonly MarkedMoment[]
  /** when the first step began; undefined when none has */
  readonly operationMs: number | undefined
}

export type TimelineState =
  | { readonly state: 'opening' | 'empty' }
  | { readonly state: 'failed'; readonly reason: string }
  | { readonly state: 'open'; readonly session: Session }

/** The time line of a case as it is when it is opened; what happens while somebody looks back is not on it. */
export function useTimeline(caseId: CaseId): { readonly timeline: TimelineState; readonly retry: () => void } {
  const [timeline, setTimeline] = useState<TimelineState>({ state: 'opening' })
  const [attempt, setAttempt] = useState(0)
  // biome-ignore lint/correctness/useExhaustiveDependencies: each attempt asks anew
  useEffect(() => {
    const leaving = new AbortController()
    setTimeline({ state: 'opening' })
    askApi(`/api/cases/${encodeURIComponent(caseId)}/timeline`, SessionTimeline, { signal: leaving.signal }).then(
      (answer) => setTimeline(stateOf(answer)),
      (error: unknown) => {
        if (!leaving.signal.aborted) setTimeline({ state: 'failed', reason: sentenceOfFault(error) })
      },
    )
    return () => leaving.abort()
  }, [caseId, attempt])
  return { timeline, retry: useCallback(() => setAttempt((count) => count + 1), []) }
}

function stateOf({ firstAt, lastAt, marks }: SessionTimeline): TimelineState {
  if (firstAt === null || lastAt === null) return { state: 'empty' }
  const moments = [firstAt, ...marks.map(({ at }) => at), lastAt].map(Date.parse).sort((a, b) => a - b)
  const begun = marks.find(({ mark }) => mark.kind === 'steps' && mark.state !== 'left-out')
  return {
    state: 'open',
    session: { scale: timeScale(moments), marks, operationMs: begun && Date.parse(begun.at) },
  }
}
