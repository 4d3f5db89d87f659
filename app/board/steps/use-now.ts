'use client'

import { useEffect, useState } from 'react'
import { useBoard } from '../board-context.tsx'

/** The time on the board's clock, renewed every so many milliseconds: now, or the earlier moment that is looked at. */
export function useNow(everyMs: number): Date {
  const { pen } = useBoard()
  const [now, setNow] = useState(pen.now)
  useEffect(() => {
    setNow(pen.now())
    const timer = setInterval(() => setNow(pen.now()), everyMs)
    return () => clearInterval(timer)
  }, [pen, everyMs])
  return now
}
