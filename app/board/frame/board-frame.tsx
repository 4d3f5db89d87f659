'use client'

import { lazy, type ReactNode, Suspense, useCallback, useContext, useEffect, useState } from 'react'
import { whenIdle } from '@/app/when-idle.ts'
import { useBoard, useBoardStatus, useMessages, useSingle, useTable } from '../board-context.tsx'
import { OwnQuestionNotices } from '../later-parts.ts'
import { UnnamedContext } from '../unnamed-authors.ts'
import { BoardHead } from './board-head.tsx'
import { BoardPanes } from './board-panes.tsx'
import { CalmContext, firstViewMark } from './first-view.ts'
import { LoadAhead } from './load-ahead.tsx'
import { Notices } from './notices.tsx'

const VoteBar = lazy(() => import('../votes/vote-bar.tsx'))

/** Time for chart and questions to be drawn before the forecasts of the shared column are loaded. */
const settleMs = 300
/** A part of the first view that cannot be loaded holds up nothing else for longer. */
const patienceMs = 3000

interface BoardFrameProps {
  /** what else is to be said above the panes */
  readonly notice: ReactNode
  readonly onRewind: () => void
}

/** The board of one case as it is now: its head, what needs to be seen at once, and its panes. */
export function BoardFrame({ notice, onRewind }: BoardFrameProps) {
  const { board, shell } = useMessages()
  const header = useSingle('header')
  const isVoting = useTable('votes').some(({ result }) => result === undefined)
  const [stands, setStands] = useState(false)
  const onStand = useCallback(() => setStands(true), [])
  const isCalm = useCalm(stands)
  return (
    <CalmContext value={isCalm}>
      <title>{`${header?.pseudonym ?? board.pageTitle} - ${shell.productName}`}</title>
      <BoardPanes
        when="now"
        isCalm={isCalm}
        onStand={onStand}
        above={(show) => (
          <>
            <BoardHead onShowPane={show} onRewind={onRewind} />
            <Notices />
            {notice}
            <OwnNews />
            <LoadAhead />
            {isVoting && (
              <Suspense>
                <VoteBar />
              </Suspense>
            )}
          </>
        )}
      />
    </CalmContext>
  )
}

/** What becomes of one's own questions; nothing for those who asked none. */
function OwnNews() {
  const { me } = useBoard()
  const { own } = useContext(UnnamedContext)
  const isAsker = useTable('questions').some(({ author }) => author === me.participant || own.has(author))
  return isAsker && <OwnQuestionNotices />
}

/**
 * Whether the page is in step with the server, or without it, and has drawn what matters most: then the rest may load.
 * @param stands whether what is in view at first has been drawn
 */
function useCalm(stands: boolean): boolean {
  const isSettled = useBoardStatus().link.state !== 'connecting'
  const [isCalm, setCalm] = useState(false)
  useEffect(() => {
    if (!isSettled || isCalm) return
    // The frame after next begins when what stands now has been painted.
    if (stands) requestAnimationFrame(() => requestAnimationFrame(() => performance.mark(firstViewMark)))
    let callOff = () => {}
    // Whoever clicks or types meanwhile comes first.
    const timer = setTimeout(
      () => {
        callOff = whenIdle(() => setCalm(true))
      },
      stands ? settleMs : patienceMs,
    )
    return () => {
      clearTimeout(timer)
      callOff()
    }
  }, [isSettled, stands, isCalm])
  return isCalm
}
