'use client'

import { Button } from '@/app/components/button.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { CloseIcon, ScreenIcon } from '@/app/components/icons.tsx'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import { useMessages, useSingle } from '../board-context.tsx'
import { usePutOnScreen } from '../put-on-screen.ts'
import styles from './on-screen.module.css'
import type { PaneName } from './pane-names.ts'

const paneOf: Record<Exclude<Showing['kind'], 'nothing'>, PaneName> = {
  audiogram: 'hearing',
  question: 'floor',
  note: 'decisions',
  contingency: 'decisions',
  forecast: 'plan',
  options: 'plan',
  scenario: 'plan',
  'sealed-forecast': 'plan',
  steps: 'steps',
  'sync-mark': 'steps',
  vote: 'decisions',
  picture: 'steps',
}

/** What is on the main screen now, the way to its pane, and for the moderator the way to take it down. */
export function OnScreen({ onShowPane }: { onShowPane: (name: PaneName) => void }) {
  const { board, words } = useMessages()
  const put = usePutOnScreen()
  const showing = useSingle('mainScreen')?.showing
  if (showing === undefined || showing.kind === 'nothing') return null
  const name =
    showing.kind === 'audiogram' && showing.ear !== 'both'
      ? board.onScreenAudiogram(words.earShort[showing.ear])
      : board.onScreen[showing.kind]
  return (
    <span className={styles.onScreen}>
      <Button tone="quiet" title={board.goToShown} onClick={() => onShowPane(paneOf[showing.kind])}>
        <ScreenIcon /> {name}
      </Button>
      {put !== undefined && (
        <IconButton label={board.takeDown} onClick={() => put({ kind: 'nothing' })}>
          <CloseIcon />
        </IconButton>
      )}
    </span>
  )
}
