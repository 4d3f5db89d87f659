'use client'

import { createContext, type ReactNode, useCallback, useContext, useEffect, useState } from 'react'
import styles from './toast.module.css'

/** Says a short sentence: shown for a while and read out politely. For what succeeded; faults stay beside their cause. */
export type Say = (sentence: string) => void

const SayContext = createContext<Say>(() => undefined)
export const useSay = (): Say => useContext(SayContext)

const shownMs = 6000

export function ToastProvider({ children }: { children: ReactNode }) {
  const [said, setSaid] = useState<{ sentence: string; turn: number }>()
  const say = useCallback<Say>((sentence) => setSaid((before) => ({ sentence, turn: (before?.turn ?? 0) + 1 })), [])
  useEffect(() => {
    if (said === undefined) return
    const timer = setTimeout(() => setSaid(undefined), shownMs)
    return () => clearTimeout(timer)
  }, [said])
  return (
    <SayContext value={say}>
      {children}
      <div className={styles.place} role="status">
        {said !== undefined && (
          <p className={styles.toast} key={said.turn}>
            {said.sentence}
          </p>
        )}
      </div>
    </SayContext>
  )
}
