'use client'

import { useEffect, useState } from 'react'
import { useBoardStatus } from '../board-context.tsx'

/** Whether the bytes of a picture could not be had; they are asked for again when the link is back. */
export function useMissingImage(): { readonly isMissing: boolean; readonly onError: () => void } {
  const isLive = useBoardStatus().link.state === 'live'
  const [isMissing, setMissing] = useState(false)
  useEffect(() => {
    if (isLive) setMissing(false)
  }, [isLive])
  return { isMissing, onError: () => setMissing(true) }
}
