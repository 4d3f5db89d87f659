'use client'

import { useRef } from 'react'
import { type Link, useBoardStatus } from '@/app/board/board-context.tsx'

/** How the page stands to the board, for people who only look. */
export type LinkLoss =
  | { readonly state: 'live' }
  /** not yet linked since the page was opened */
  | { readonly state: 'linking' }
  /** `since` in ISO 8601 */
  | { readonly state: 'lost'; readonly since: string }
  | { readonly state: 'not-admitted'; readonly reason: string }

/** Remembers since when the link is lost: reconnecting does not end the loss before the board is live again. */
export function useLinkLoss(): LinkLoss {
  const { link } = useBoardStatus()
  const last = useRef<LinkLoss>({ state: 'linking' })
  last.current = nextLoss(last.current, link, () => new Date().toISOString())
  return last.current
}

export function nextLoss(before: LinkLoss, link: Link, now: () => string): LinkLoss {
  switch (link.state) {
    case 'live':
      return before.state === 'live' ? before : { state: 'live' }
    case 'refused-entry':
      return { state: 'not-admitted', reason: link.reason }
    case 'connecting':
      return before.state === 'live' ? { state: 'lost', since: now() } : before
    case 'offline':
      return before.state === 'lost' ? before : { state: 'lost', since: now() }
    default:
      return link satisfies never
  }
}
