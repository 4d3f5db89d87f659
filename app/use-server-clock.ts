'use client'

import { useCallback, useEffect, useState } from 'react'
import type { ClockOffset } from '@/lib/board/server-clock.ts'
import { readServerClock } from './read-server-clock.ts'

export type ClockReading =
  | { readonly state: 'reading' }
  | { readonly state: 'failed' }
  | { readonly state: 'known'; readonly offset: ClockOffset }

/** Reads the server's clock when it comes into view, and again on demand. */
export function useServerClock(): { readonly clock: ClockReading; readonly readAgain: () => void } {
  const [clock, setClock] = useState<ClockReading>({ state: 'reading' })
  const [turn, setTurn] = useState(0)
  // biome-ignore lint/correctness/useExhaustiveDependencies: another turn reads again
  useEffect(() => {
    let left = false
    readServerClock().then(
      (offset) => !left && setClock({ state: 'known', offset }),
      () => !left && setClock({ state: 'failed' }),
    )
    return () => {
      left = true
    }
  }, [turn])
  const readAgain = useCallback(() => {
    setClock({ state: 'reading' })
    setTurn((before) => before + 1)
  }, [])
  return { clock, readAgain }
}
