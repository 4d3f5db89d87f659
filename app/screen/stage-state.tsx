'use client'

import { useMessages } from '@/app/board/board-context.tsx'
import type { Contingency, ContingencyState } from '@/lib/board/records/contingency.ts'
import styles from './stage-state.module.css'

/** The sign beside the word, so that the state is read without colour. */
const signs: Record<ContingencyState, string> = { watching: '○', met: '▲', 'acted-on': '✓', 'stood-down': '–' }

/** State of a contingency, large. */
export function StageState({ of: { state } }: { of: Pick<Contingency, 'state'> }) {
  const { words } = useMessages()
  return (
    <span className={styles.state} data-state={state}>
      <span aria-hidden="true">{signs[state]}</span> {words.contingencyState[state]}
    </span>
  )
}
