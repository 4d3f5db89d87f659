'use client'

import { type FocusEvent, type KeyboardEvent, type RefObject, useEffect, useRef, useState } from 'react'

export interface RowProps {
  readonly 'data-row': string
  readonly tabIndex: 0 | -1
}

export interface RovingRows {
  /** the row that Tab reaches, and that keys act upon */
  readonly current: string | undefined
  /** to spread on the element around all rows */
  readonly area: {
    readonly ref: RefObject<HTMLDivElement | null>
    readonly tabIndex: -1
    readonly onPointerDown: () => void
    readonly onFocus: (event: FocusEvent) => void
    readonly onBlur: (event: FocusEvent) => void
  }
  /** to spread on the focusable element of a row */
  rowProps(id: string): RowProps
  /** moves on arrow keys, Home and End; true when it did */
  onArrow(event: KeyboardEvent): boolean
  /** focuses a row now or, when it is not drawn yet, once it is */
  focusRow(id: string): void
}

const steps: Readonly<Record<string, (index: number, count: number) => number>> = {
  ArrowDown: (index, count) => Math.min(index + 1, count - 1),
  ArrowUp: (index) => Math.max(index - 1, 0),
  Home: () => 0,
  End: (_, count) => count - 1,
}

/** The row that an element of the area belongs to: rows and what stands in them carry `data-row-of`. */
const rowOf = (target: EventTarget): string | undefined =>
  target instanceof Element ? target.closest<HTMLElement>('[data-row-of]')?.dataset.rowOf : undefined

/**
 * One tab stop for a long list; arrows go from row to row. When the focused row is drawn elsewhere or goes away (somebody
 * answered it), the focus follows it or takes the row that stands in its place, instead of falling back to the page.
 */
export function useRovingRows(ids: readonly string[]): RovingRows {
  const ref = useRef<HTMLDivElement>(null)
  const [chosen, setChosen] = useState<string>()
  const inside = useRef(false)
  const lastIndex = useRef(0)
  const wanted = useRef<string>(undefined)
  const choose = usePressedLast(setChosen)
  const isThere = chosen !== undefined && ids.includes(chosen)
  const current = isThere ? chosen : ids[Math.min(lastIndex.current, ids.length - 1)]

  const focusNow = (id: string | undefined): boolean => {
    const row = id === undefined ? null : ref.current?.querySelector<HTMLElement>(`[data-row="${CSS.escape(id)}"]`)
    row?.focus()
    return row !== null && row !== undefined
  }
  useEffect(() => {
    if (wanted.current !== undefined) {
      if (focusNow(wanted.current)) wanted.current = undefined
    } else if (inside.current && document.activeElement === document.body && !focusNow(current)) ref.current?.focus()
    if (isThere) lastIndex.current = ids.indexOf(chosen)
  })

  return {
    current,
    area: {
      ref,
      tabIndex: -1,
      onPointerDown: choose.onPointerDown,
      onFocus: ({ target }) => {
        inside.current = true
        const row = rowOf(target)
        if (row !== undefined) choose.now(row)
      },
      onBlur: ({ relatedTarget }) => {
        inside.current = relatedTarget !== null && ref.current?.contains(relatedTarget) === true
      },
    },
    rowProps: (id) => ({ 'data-row': id, tabIndex: id === current ? 0 : -1 }),
    onArrow: ({ key, altKey, ctrlKey, metaKey }) => {
      const step = steps[key]
      if (step === undefined || altKey || ctrlKey || metaKey || current === undefined) return false
      return focusNow(ids[step(ids.indexOf(current), ids.length)])
    },
    focusRow: (id) => {
      if (!focusNow(id)) wanted.current = id
    },
  }
}

/**
 * Puts a choice off while a pointer is down: what the last current row offers vanishes, the rows below move up, and the
 * click would land beside what was pressed.
 */
function usePressedLast(choose: (row: string) => void) {
  const pressed = useRef(false)
  const waiting = useRef<string>(undefined)
  // A frame later the click has been given to what was pressed.
  const release = () =>
    requestAnimationFrame(() => {
      pressed.current = false
      if (waiting.current !== undefined) choose(waiting.current)
      waiting.current = undefined
    })
  return {
    onPointerDown: () => {
      pressed.current = true
      const isOver = new AbortController()
      const end = () => {
        isOver.abort()
        release()
      }
      for (const event of ['pointerup', 'pointercancel']) addEventListener(event, end, { signal: isOver.signal })
    },
    now: (row: string) => {
      if (pressed.current) waiting.current = row
      else choose(row)
    },
  }
}
