'use client'

import type { ReactNode } from 'react'
import { BoardProvider } from '@/app/board/board-provider.tsx'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'
import type { Following } from './programme-follower.ts'
import { useProgramme } from './use-programme.ts'
import { WaitingScreen } from './waiting-screen.tsx'

interface FollowedCaseProps {
  readonly programmeId: string
  readonly theme?: 'theatre'
  /** what stands there while no case is on; the waiting screen unless given */
  readonly between?: ((following: Extract<Following, { state: 'following' }>) => ReactNode) | undefined
  /** the page of whichever case is on */
  readonly children: ReactNode
}

/** One page for the whole day: the case that is on, and between cases what comes next. Nobody has to touch it. */
export function FollowedCase({ programmeId, theme, between, children }: FollowedCaseProps) {
  const following = useProgramme(programmeId)
  if (following.state !== 'following')
    return <OpeningNotice reason={following.state === 'failed' ? following.reason : undefined} />
  const { detail, link } = following
  const themed = theme === undefined ? {} : { theme }
  const { onNow } = detail
  const on = onNow.kind === 'case' ? detail.cases.find(({ id }) => id === onNow.id) : undefined
  if (on === undefined) return between?.(following) ?? <WaitingScreen detail={detail} link={link} {...themed} />
  return (
    <BoardProvider
      key={on.id}
      caseId={on.id}
      notice={(fault) => <WaitingScreen detail={detail} link={link} coming={on} fault={fault} {...themed} />}
    >
      {children}
    </BoardProvider>
  )
}
