'use client'

import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

/**
 * How many entries of a list stand whole inside it. The list keeps all of them in its layout and hides the rest from
 * sight, so that counting does not change what is counted. The first one is always shown.
 */
export function useFittingCount(): { readonly list: RefObject<HTMLUListElement | null>; readonly fitting: number } {
  const list = useRef<HTMLUListElement>(null)
  const [fitting, setFitting] = useState(1)
  // After every change of the entries, of the place and once the typeface has arrived.
  useLayoutEffect(() => {
    const element = list.current
    if (element === null) return
    const count = () => setFitting(Math.max(1, fittingEntries(element)))
    count()
    const observer = new ResizeObserver(count)
    observer.observe(element)
    document.fonts.addEventListener('loadingdone', count)
    return () => {
      observer.disconnect()
      document.fonts.removeEventListener('loadingdone', count)
    }
  })
  return { list, fitting }
}

const fittingEntries = (list: HTMLElement): number =>
  [...list.children].filter(
    (entry) =>
      entry instanceof HTMLElement && entry.offsetTop - list.offsetTop + entry.offsetHeight <= list.clientHeight,
  ).length
