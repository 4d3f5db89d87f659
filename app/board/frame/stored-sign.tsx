'use client'

import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useBoardStatus, useMessages } from '../board-context.tsx'
import styles from './stored-sign.module.css'

/** Whether all that was written here is stored, in one word. Read out only when it turns bad. */
export function StoredSign() {
  const { board } = useMessages()
  const { link, stored } = useBoardStatus()
  const keptHere = link.state === 'offline' && stored === 'not-stored-offline'
  const state = link.state === 'live' || keptHere ? stored : link.state
  const tones: Record<typeof state, Tone> = {
    stored: 'good',
    storing: 'quiet',
    'not-stored-offline': 'caution',
    connecting: 'quiet',
    offline: 'caution',
    'refused-entry': 'stop',
  }
  return (
    <span className={styles.stored} data-stored={stored} data-link={link.state}>
      <StateSign tone={tones[state]} sign={state === 'storing' || state === 'connecting' ? '…' : undefined}>
        {board.storedState[state]}
      </StateSign>
    </span>
  )
}
