'use client'

import { useEffect, useState } from 'react'
import { fetchSentences } from '@/app/messages/together.ts'
import { useBoardStatus } from '../board-context.tsx'

export type Load = () => Promise<unknown>

interface LoadedAheadProps {
  /** the same array at every render */
  readonly loads: readonly Load[]
  readonly afterMs: number
}

/**
 * Loads parts of a page some time after it is in step with the server: a page that loses its link later can open them all
 * the same.
 */
export function LoadedAhead({ loads, afterMs }: LoadedAheadProps) {
  const isLive = useBoardStatus().link.state === 'live'
  const [isWhole, setWhole] = useState(false)
  useEffect(() => {
    if (!isLive || isWhole) return
    const loadAll = () => {
      // A part that fails now is asked for again when the link is back, or when somebody opens it.
      Promise.all(loads.map((load) => load()))
        .then(() => fetchSentences())
        .then(
          () => setWhole(true),
          () => setWhole(false),
        )
    }
    const timer = setTimeout(loadAll, afterMs)
    return () => clearTimeout(timer)
  }, [isLive, isWhole, loads, afterMs])
  return <span hidden data-works-offline={isWhole} />
}
