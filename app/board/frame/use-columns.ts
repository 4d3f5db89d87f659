'use client'

import { useSyncExternalStore } from 'react'
import type { Columns } from './pane-names.ts'

/** From these widths on two and three panes are legible side by side. */
const wide = '(min-width: 1024px)'
const widest = '(min-width: 1400px)'

function subscribe(notify: () => void): () => void {
  const queries = [matchMedia(wide), matchMedia(widest)]
  for (const query of queries) query.addEventListener('change', notify)
  return () => {
    for (const query of queries) query.removeEventListener('change', notify)
  }
}

const read = (): Columns => (matchMedia(widest).matches ? 3 : matchMedia(wide).matches ? 2 : 1)

export const useColumns = (): Columns => useSyncExternalStore(subscribe, read, () => 1 as const)
