'use client'

import { useEffect, useState } from 'react'
import { useBoardStatus, useMay } from '../board-context.tsx'

type Load = () => Promise<unknown>

const forEverybody: readonly Load[] = [
  () => import('../hearing/hearing-pane.tsx'),
  () => import('../plan/plan-pane.tsx'),
  () => import('../steps/steps-pane.tsx'),
  () => import('../decisions/decisions-pane.tsx'),
  () => import('../floor/floor-pane.tsx'),
]
const forThoseWhoEnter: readonly Load[] = [
  () => import('../hearing/test-desk.tsx'),
  () => import('../hearing/hearing-dialogs.tsx'),
  () => import('../hearing/import-dialog.tsx'),
  () => import('../decisions/note-editor.tsx'),
]

/** Long enough that it does not compete with what the first view needs. */
const quietMs = 2000

/**
 * Loads the parts of the board that nobody has opened yet, some time after the page is in step with the server: a page
 * that loses its link later can open them all the same.
 */
export function LoadAhead() {
  const isLive = useBoardStatus().link.state === 'live'
  const mayEnter = useMay().mayCreate('tests')
  const [isWhole, setWhole] = useState(false)
  useEffect(() => {
    if (!isLive || isWhole) return
    const timer = setTimeout(() => {
      const loads = mayEnter ? [...forEverybody, ...forThoseWhoEnter] : forEverybody
      // A part that fails now is asked for again when the link is back, or when somebody opens it.
      Promise.all(loads.map((load) => load())).then(
        () => setWhole(true),
        () => setWhole(false),
      )
    }, quietMs)
    return () => clearTimeout(timer)
  }, [isLive, isWhole, mayEnter])
  return <span hidden data-works-offline={isWhole} />
}
