'use client'

import { useEffect, useState, useSyncExternalStore } from 'react'

/** The time now, renewed every so many milliseconds. */
export function useNow(everyMs: number): Date {
  const [now, setNow] = useState(() => new Date())
  useEffect(() => {
    const timer = setInterval(() => setNow(new Date()), everyMs)
    return () => clearInterval(timer)
  }, [everyMs])
  return now
}

/** Keeps the display from going dark while the page is visible. A browser that cannot or will not is left alone. */
export function useDisplayAwake(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | undefined
    let left = false
    const ask = async () => {
      if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return
      try {
        const given = await navigator.wakeLock.request('screen')
        if (left) await given.release()
        else lock = given
      } catch (refused) {
        // Battery saver or policy: the picture is then the display's own business.
        if (!(refused instanceof DOMException)) throw refused
      }
    }
    const onVisible = () => void ask()
    document.addEventListener('visibilitychange', onVisible)
    void ask()
    return () => {
      left = true
      document.removeEventListener('visibilitychange', onVisible)
      void lock?.release()
    }
  }, [])
}

export interface ViewportSize {
  readonly width: number
  readonly height: number
}

let size: ViewportSize = { width: 0, height: 0 }

function currentSize(): ViewportSize {
  if (size.width !== innerWidth || size.height !== innerHeight) size = { width: innerWidth, height: innerHeight }
  return size
}

function onResize(notify: () => void): () => void {
  addEventListener('resize', notify)
  return () => removeEventListener('resize', notify)
}

export const useViewportSize = (): ViewportSize => useSyncExternalStore(onResize, currentSize, () => size)
