'use client'

import { useMemo } from 'react'
import { useTable } from '@/app/board/board-context.tsx'
import { usePictureDesk } from '@/app/board/pictures/picture-desk.tsx'
import { usePictures } from '@/app/board/pictures/use-pictures.ts'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { Button } from '@/app/components/button.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-pictures.ts'
import { currentStep } from '@/lib/board/running-record.ts'
import type { DeskActs } from './desk-acts.ts'
import { KeyHint } from './key-hint.tsx'
import { useLatest } from './use-latest.ts'

/** Adding a photograph to the step that is under way, and showing the newest one, in a key each. */
export function PictureActs({ acts }: { readonly acts: DeskActs }) {
  const { pictures: words } = useMessages()
  const { add } = usePictureDesk()
  const say = useSay()
  const step = currentStep(useTable('steps'))?.id
  const newest = usePictures().at(-1)
  const addNow = () => add?.(step)
  const showNewest = () => {
    if (newest === undefined) return say(words.noneYet)
    acts.show({ kind: 'picture', id: newest.id })
    say(words.latestShown)
  }
  const latest = useLatest({ addNow, showNewest })
  const shortcuts = useMemo<Shortcut[]>(
    () => [
      { key: 'P', does: words.keys.add, act: () => latest.current.addNow() },
      { key: 'N', does: words.keys.show, act: () => latest.current.showNewest() },
    ],
    [words, latest],
  )
  useShortcuts(words.title, shortcuts)
  return (
    <div>
      <Button tone="quiet" onClick={addNow}>
        {words.add} <KeyHint>P</KeyHint>
      </Button>
    </div>
  )
}
