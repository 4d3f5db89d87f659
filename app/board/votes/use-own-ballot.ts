'use client'

import { useCallback, useEffect, useState } from 'react'
import { sentenceOfFault } from '@/app/api-client.ts'
import { useBoard, useBoardStatus } from '@/app/board/board-context.tsx'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Ballot } from '@/lib/board/records/vote.ts'
import type { OwnBallot } from '@/lib/interchange/api.ts'
import { askBallot, castBallot } from './vote-api.ts'

/** How often a moderator's page asks how many have voted. */
const turnoutEveryMs = 3000

export interface OwnVoting extends OwnBallot {
  readonly isCasting: boolean
  /** why the last attempt failed */
  readonly fault: string | undefined
  cast(ballot: Ballot): void
}

/** The caller's ballot in an open vote: asked when it comes into view and whenever the link is back. */
export function useOwnBallot(vote: RecordId, followsTurnout: boolean): OwnVoting {
  const { caseId } = useBoard()
  const isLive = useBoardStatus().link.state === 'live'
  const [known, setKnown] = useState<OwnBallot>({ ballot: null, turnout: null })
  const [isCasting, setCasting] = useState(false)
  const [fault, setFault] = useState<string>()
  useEffect(() => {
    if (!isLive) return
    let left = false
    const ask = () =>
      askBallot(caseId, vote).then(
        (answer) => !left && setKnown(answer),
        (error: unknown) => !left && setFault(sentenceOfFault(error)),
      )
    void ask()
    const timer = followsTurnout ? setInterval(ask, turnoutEveryMs) : undefined
    return () => {
      left = true
      clearInterval(timer)
    }
  }, [caseId, vote, isLive, followsTurnout])
  const cast = useCallback(
    (ballot: Ballot) => {
      setCasting(true)
      setFault(undefined)
      castBallot(caseId, vote, ballot)
        .then(
          () => setKnown((before) => ({ ...before, ballot })),
          (error: unknown) => setFault(sentenceOfFault(error)),
        )
        .finally(() => setCasting(false))
    },
    [caseId, vote],
  )
  return { ...known, isCasting, fault, cast }
}
