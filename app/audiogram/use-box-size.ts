import { type RefObject, useEffect, useState } from 'react'

export interface BoxSize {
  readonly width: number
  readonly height: number
}

/** Inner size of an element in CSS pixels, followed as it changes; undefined before the first layout. */
export function useBoxSize(ref: RefObject<Element | null>): BoxSize | undefined {
  const [size, setSize] = useState<BoxSize>()
  useEffect(() => {
    if (ref.current === null) return
    const observer = new ResizeObserver(([entry]) => {
      if (entry !== undefined) setSize({ width: entry.contentRect.width, height: entry.contentRect.height })
    })
    observer.observe(ref.current)
    return () => observer.disconnect()
  }, [ref])
  return size
}
