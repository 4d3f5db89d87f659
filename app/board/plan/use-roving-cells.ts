'use client'

import { type ButtonHTMLAttributes, type KeyboardEvent, useCallback, useEffect, useRef, useState } from 'react'

interface Place {
  readonly row: number
  readonly column: number
}

const steps: Readonly<Record<string, Place>> = {
  ArrowUp: { row: -1, column: 0 },
  ArrowDown: { row: 1, column: 0 },
  ArrowLeft: { row: 0, column: -1 },
  ArrowRight: { row: 0, column: 1 },
}

const selector = ({ row, column }: Place) => `[data-cell="${row}.${column}"]`

/**
 * Buttons of a table as one stop of the Tab key, with arrow keys from button to button; places without a button are
 * passed over.
 */
export function useRovingCells(first: Place) {
  const table = useRef<HTMLTableElement>(null)
  const [chosen, setChosen] = useState(first)
  useEffect(() => {
    // A number that was the stop may have gone: a slider can leave an option without numbers.
    if (table.current === null || table.current.querySelector('[data-cell][tabindex="0"]') !== null) return
    const other = placeOf(table.current.querySelector('[data-cell]'))
    if (other !== undefined) setChosen(other)
  })
  const onKeyDown = useCallback((event: KeyboardEvent<HTMLTableElement>) => {
    const step = steps[event.key]
    const from = placeOf(event.target)
    if (step === undefined || from === undefined || table.current === null) return
    const next = nextCell(table.current, from, step)
    if (next === undefined) return
    event.preventDefault()
    next.focus()
  }, [])
  const cellAt = (row: number, column: number): ButtonHTMLAttributes<HTMLButtonElement> => ({
    ...{ 'data-cell': `${row}.${column}` },
    tabIndex: row === chosen.row && column === chosen.column ? 0 : -1,
    onFocus: () => setChosen({ row, column }),
  })
  return { table, onKeyDown, cellAt }
}

function placeOf(target: EventTarget | null): Place | undefined {
  if (!(target instanceof HTMLElement)) return undefined
  const [row, column] = (target.dataset.cell ?? '').split('.').map(Number)
  return row === undefined || column === undefined ? undefined : { row, column }
}

/** The longest way that is looked ahead: tables of a forecast are smaller. */
const farthest = 24

function nextCell(table: HTMLElement, from: Place, step: Place): HTMLElement | undefined {
  for (let count = 1; count <= farthest; count++) {
    const place = { row: from.row + count * step.row, column: from.column + count * step.column }
    const cell = table.querySelector<HTMLElement>(selector(place))
    if (cell !== null) return cell
  }
  return undefined
}
