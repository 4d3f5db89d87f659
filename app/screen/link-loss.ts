'use client'

import { useRef } from 'react'
import { type Link, useBoardStatus } from '@/app/board/board-context.tsx'

/** How the page stands to the board, for people who only look. */
export type LinkLoss =
  | { readonly state: 'live' }
  /** not yet linked since the page was opened */
  | { readonly state: 'linking' }
  /** `since` in ISO 8601; `why` is the link itself, or a server that can store nothing */
  | { readonly state: 'lost'; readonly since: string; readonly why: 'link' | 'store' }
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
      return before.state === 'live' ? lost(before, 'link', now) : before
    case 'offline':
      return lost(before, 'link', now)
    case 'store-away':
      return lost(before, 'store', now)
    default:
      return link satisfies never
  }
}

/** A loss goes on from when it began, also when its reason is another by now. */
function lost(before: LinkLoss, why: 'link' | 'store', now: () => string): LinkLoss {
  if (before.state === 'lost' && before.why === why) return before
  return { state: 'lost', since: before.state === 'lost' ? before.since : now(), why }
}
