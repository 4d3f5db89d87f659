import { useEffect, useMemo } from 'react'
import { useBoard } from '@/app/board/board-context.tsx'
import { useOthers } from '@/app/board/presence.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Presence } from '@/lib/board/wire.ts'

/** Publishes which question this moderator has in hand; it ends with the page, since presence does. */
export function useClaim(question: RecordId | undefined): void {
  const { awareness } = useBoard()
  useEffect(() => {
    if (awareness.getLocalState() !== null) awareness.setLocalStateField('handling', question ?? null)
  }, [awareness, question])
}

interface Claim {
  readonly user: Presence['user']
  readonly question: RecordId
}

const claimOf = ({ user, handling }: Presence): Claim | undefined =>
  handling === undefined || handling === null || user.role !== 'moderator' ? undefined : { user, question: handling }

/** Which questions other moderators have in hand. */
export function useClaims(): readonly Claim[] {
  const { me } = useBoard()
  const claims = useOthers(claimOf)
  return useMemo(() => claims.filter(({ user }) => user.id !== me.participant), [claims, me.participant])
}
