'use client'

import { type KeyboardEvent, useCallback, useMemo } from 'react'
import { showOnMainScreen } from '@/lib/board/edits/decisions.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import { useBoard, useMay } from './board-context.tsx'
import { isTyping } from './shortcuts.tsx'

/** Puts something on the main screen; undefined for those who may not. */
export function usePutOnScreen(): ((showing: Showing) => void) | undefined {
  const { record, pen } = useBoard()
  const may = useMay()
  const put = useCallback((showing: Showing) => showOnMainScreen(record, pen, showing), [record, pen])
  return may.mayCreate('mainScreen') ? put : undefined
}

const isSlider = (target: EventTarget | null) => target instanceof HTMLElement && target.matches('input[type=range]')

/** `s` alone, not typed into a field; a slider takes no letters. */
export const isPutOnScreenKey = ({ key, ctrlKey, altKey, metaKey, target }: KeyboardEvent): boolean =>
  key === 's' && !ctrlKey && !altKey && !metaKey && (isSlider(target) || !isTyping(target))

/** For the focusable element of an item: `s` while it (or something in it that is not typed into) has the focus shows it. */
export function usePutOnScreenKey(showing: Showing): { onKeyDown?: (event: KeyboardEvent) => void } {
  const put = usePutOnScreen()
  return useMemo(() => {
    if (put === undefined) return {}
    return {
      onKeyDown: (event) => {
        if (!isPutOnScreenKey(event)) return
        event.preventDefault()
        put(showing)
      },
    }
  }, [put, showing])
}
