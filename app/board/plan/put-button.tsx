'use client'

import { usePutOnScreen } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { ScreenIcon } from '@/app/components/icons.tsx'
import type { Showing } from '@/lib/board/records/main-screen.ts'

interface PutButtonProps {
  readonly showing: Showing
  readonly label: string
}

/** Puts something on the main screen; nothing for those who may not. */
export function PutButton({ showing, label }: PutButtonProps) {
  const put = usePutOnScreen()
  if (put === undefined) return null
  return (
    <Button tone="quiet" onClick={() => put(showing)} aria-keyshortcuts="s">
      <ScreenIcon /> {label}
    </Button>
  )
}
