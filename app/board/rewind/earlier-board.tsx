'use client'

import { type ReactNode, useEffect, useMemo, useState } from 'react'
import { Awareness } from 'y-protocols/awareness'
import * as Y from 'yjs'
import { type Board, BoardContext, useBoard } from '../board-context.tsx'
import type { OpenedMoment } from './use-moment.ts'

interface EarlierBoardProps {
  readonly moment: OpenedMoment
  readonly children: ReactNode
}

/**
 * Gives what is below it the board as it was: the same contexts over documents that nobody is connected to, for somebody who
 * may change nothing and is seen by nobody. The clock stands still at the moment.
 */
export function EarlierBoard({ moment, children }: EarlierBoardProps) {
  const live = useBoard()
  const awareness = useNobody()
  const board = useMemo<Board>(
    () => ({
      ...live,
      me: { ...live.me, role: 'observer' },
      record: moment.record,
      floor: moment.floor,
      awareness,
      pen: { participant: live.me.participant, now: () => new Date(moment.atMs), newId: refuseToWrite },
    }),
    [live, moment, awareness],
  )
  return <BoardContext value={board}>{children}</BoardContext>
}

function refuseToWrite(): never {
  throw new TypeError('nothing is written at an earlier moment')
}

/** Presence without anybody in it. */
function useNobody(): Awareness {
  const [awareness] = useState(() => {
    const nobody = new Awareness(new Y.Doc())
    nobody.setLocalState(null)
    return nobody
  })
  useEffect(() => () => awareness.destroy(), [awareness])
  return awareness
}
