'use client'

import { useEffect, useState } from 'react'
import type { CaseId, ParticipantId } from '@/lib/board/identity.ts'
import type { UnnamedAuthor } from '@/lib/interchange/unnamed.ts'
import { listUnnamed } from './unnamed-api.ts'

interface TellUnnamedProps {
  readonly caseId: CaseId
  readonly authors: readonly ParticipantId[]
  readonly isLive: boolean
  readonly onTold: (found: readonly UnnamedAuthor[]) => void
}

/** Asks the server about authors without a name that this page has not heard of yet, whenever one appears or the link is back. */
export default function TellUnnamed({ caseId, authors, isLive, onTold }: TellUnnamedProps) {
  const [asked, setAsked] = useState<ReadonlySet<ParticipantId>>(new Set())
  const unknown = authors.filter((author) => !asked.has(author)).join(' ')
  useEffect(() => {
    if (unknown === '' || !isLive) return
    const leaving = new AbortController()
    listUnnamed(caseId, leaving.signal).then(
      (found) => {
        onTold(found)
        setAsked((before) => new Set([...before, ...unknown.split(' ')]))
      },
      // Asked again with the next one, or when the link is back.
      () => undefined,
    )
    return () => leaving.abort()
  }, [caseId, unknown, isLive, onTold])
  return null
}
