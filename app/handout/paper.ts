'use client'

import { useEffect, useState } from 'react'
import { flushSync } from 'react-dom'

/** The time (ISO 8601) that the sheet says it was made at: now, and once more at the moment of printing. */
export function useGenerationTime(): string {
  const [at, setAt] = useState(() => new Date().toISOString())
  useEffect(() => {
    const renew = () => flushSync(() => setAt(new Date().toISOString()))
    addEventListener('beforeprint', renew)
    return () => removeEventListener('beforeprint', renew)
  }, [])
  return at
}

/** Gives the running foot of the printed pages its text: margin boxes read it from the root (handout.module.css). */
export function usePageFoot(text: string): void {
  useEffect(() => {
    const root = document.documentElement
    root.style.setProperty('--page-foot', JSON.stringify(text))
    return () => void root.style.removeProperty('--page-foot')
  }, [text])
}
