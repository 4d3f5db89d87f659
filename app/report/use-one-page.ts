'use client'

import { type RefObject, useEffect, useRef } from 'react'

/** Height of the printed page between its margins (sheet.module.css), less what a printer may round, in millimetres. */
const pageHeightMm = 297 - 10 - 13 - 3
const pixelsPerMm = 96 / 25.4
/** Below, letters could no longer be read: then the sheet goes on to a second page. */
const smallestZoom = 0.7

/** Keeps a sheet to one printed page: what is too long for it is printed smaller. */
export function useOnePage(isWanted: boolean): RefObject<HTMLElement | null> {
  const sheet = useRef<HTMLElement>(null)
  useEffect(() => {
    if (!isWanted) return
    const shrink = () => fitToPage(sheet.current)
    shrink()
    const observer = new ResizeObserver(shrink)
    for (const block of sheet.current?.children ?? []) observer.observe(block)
    addEventListener('beforeprint', shrink)
    return () => {
      observer.disconnect()
      removeEventListener('beforeprint', shrink)
    }
  })
  return sheet
}

function fitToPage(sheet: HTMLElement | null): void {
  if (sheet === null) return
  sheet.dataset.measured = 'now'
  const height = sheet.getBoundingClientRect().height
  delete sheet.dataset.measured
  const zoom = Math.max(smallestZoom, Math.min(1, (pageHeightMm * pixelsPerMm) / height))
  sheet.style.setProperty('--sheet-zoom', String(zoom))
}
