'use client'

import { type ReactNode, useEffect, useRef, useState } from 'react'

/** How far below the view a part begins to load: about one turn of a wheel or swipe of a thumb ahead. */
const aheadOfView = '600px'

/** What scrolls the element: margins count against it only when it is named as the root; the view when nothing else does. */
function scrollerOf(element: Element): Element | null {
  for (let outer = element.parentElement; outer !== null && outer !== document.body; outer = outer.parentElement)
    if (/auto|scroll/.test(getComputedStyle(outer).overflowY)) return outer
  return null
}

interface WhenNearProps {
  /** whether what stands above has come: before, everything would be near */
  readonly isReady: boolean
  /** loads without waiting for the view */
  readonly atOnce: boolean
  readonly children: ReactNode
}

/** Parts far down a pane, mounted when somebody comes near them: a page that nobody scrolls never fetches their code. */
export function WhenNear({ isReady, atOnce, children }: WhenNearProps) {
  const place = useRef<HTMLDivElement>(null)
  const [isNear, setNear] = useState(isReady && atOnce)
  if (isReady && atOnce && !isNear) setNear(true)
  useEffect(() => {
    if (isNear || !isReady || place.current === null) return
    const watch = new IntersectionObserver(
      (entries) => {
        if (entries.some(({ isIntersecting }) => isIntersecting)) setNear(true)
      },
      { root: scrollerOf(place.current), rootMargin: aheadOfView },
    )
    watch.observe(place.current)
    return () => watch.disconnect()
  }, [isNear, isReady])
  return isNear ? children : <div ref={place} data-when-near />
}
