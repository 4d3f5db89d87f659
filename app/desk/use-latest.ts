import { type RefObject, useEffect, useRef } from 'react'

/** The value of the last draw, for callbacks that keep their identity. */
export function useLatest<T>(value: T): RefObject<T> {
  const latest = useRef(value)
  useEffect(() => {
    latest.current = value
  })
  return latest
}
