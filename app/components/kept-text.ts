'use client'

import { createContext, useCallback, useContext, useState } from 'react'

/** To what the unfinished texts below belong: a case. */
export const KeptTextScope = createContext('')

export interface KeptText {
  readonly text: string
  write(text: string): void
  /** after it was sent */
  clear(): void
}

/**
 * A text in the making. It outlives its form, a change of pane and a reload of this tab, so that a slip of the finger
 * loses nothing; a browser without storage keeps it while the form stands.
 */
export function useKeptText(name: string, initial = ''): KeptText {
  const key = `text:${useContext(KeptTextScope)}:${name}`
  const [text, setText] = useState(() => read(key) ?? initial)
  const write = useCallback(
    (next: string) => {
      setText(next)
      keep(key, next)
    },
    [key],
  )
  const clear = useCallback(() => {
    setText('')
    forget(key)
  }, [key])
  return { text, write, clear }
}

const read = (key: string): string | undefined => withStorage((storage) => storage.getItem(key) ?? undefined)
const keep = (key: string, text: string) => withStorage((storage) => storage.setItem(key, text))
const forget = (key: string) => withStorage((storage) => storage.removeItem(key))

/** Storage may be denied or full; the text then lives in the form alone. */
function withStorage<T>(use: (storage: Storage) => T): T | undefined {
  try {
    return use(sessionStorage)
  } catch (error) {
    if (error instanceof DOMException) return undefined
    throw error
  }
}
