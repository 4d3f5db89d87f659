'use client'

import { type ReactNode, useLayoutEffect, useRef } from 'react'
import styles from './fitted-text.module.css'

/** Sizes of the stage scale, largest first. */
const sizes = ['vast', 'display', 'title', 'lead', 'text'] as const
export type FittedSize = (typeof sizes)[number]

interface FittedTextProps {
  readonly children: ReactNode
  readonly largest?: FittedSize
  /** said at the end when even the smallest size does not hold the text */
  readonly continues: string
}

/** Text in the largest size in which it fits its place; what does not fit in the smallest is cut with a remark. */
export function FittedText({ children, largest = 'vast', continues }: FittedTextProps) {
  const box = useRef<HTMLDivElement>(null)
  // After every change of the text, of the place and once the typeface has arrived.
  useLayoutEffect(() => {
    const element = box.current
    if (element === null) return
    const fitNow = () => fitInto(element, largest)
    fitNow()
    const observer = new ResizeObserver(fitNow)
    observer.observe(element)
    document.fonts.addEventListener('loadingdone', fitNow)
    return () => {
      observer.disconnect()
      document.fonts.removeEventListener('loadingdone', fitNow)
    }
  })
  return (
    <div ref={box} className={styles.box} data-continues={continues}>
      <div className={styles.text}>{children}</div>
    </div>
  )
}

function fitInto(element: HTMLElement, largest: FittedSize): void {
  element.dataset.cut = 'false'
  for (const size of sizes.slice(sizes.indexOf(largest))) {
    element.dataset.size = size
    if (element.scrollHeight <= element.clientHeight && element.scrollWidth <= element.clientWidth) return
  }
  element.dataset.cut = 'true'
}
