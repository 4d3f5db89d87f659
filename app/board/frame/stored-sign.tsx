'use client'

import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { type Link, type Storing, useBoardStatus, useMessages } from '../board-context.tsx'
import styles from './stored-sign.module.css'

const tones = {
  stored: 'good',
  storing: 'quiet',
  connecting: 'quiet',
  offline: 'caution',
  'offline-kept-here': 'caution',
  'store-away': 'caution',
  'store-away-kept-here': 'caution',
  'refused-entry': 'stop',
} as const satisfies Record<string, Tone>

function stateOf(link: Link['state'], stored: Storing): keyof typeof tones {
  if (link === 'live') return stored === 'stored' ? 'stored' : 'storing'
  if ((link === 'offline' || link === 'store-away') && stored !== 'stored') return `${link}-kept-here`
  return link
}

/** Whether all that was written here is stored, in one word. Read out only when it turns bad. */
export function StoredSign() {
  const { board } = useMessages()
  const { link, stored } = useBoardStatus()
  const state = stateOf(link.state, stored)
  return (
    <span className={styles.stored} data-stored={stored} data-link={link.state}>
      <StateSign tone={tones[state]} sign={state === 'storing' || state === 'connecting' ? '…' : undefined}>
        {board.storedState[state]}
      </StateSign>
    </span>
  )
}
