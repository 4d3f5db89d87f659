'use client'

import { useMemo } from 'react'
import { Badge } from '@/app/components/badge.tsx'
import { useMessages, useTable } from '../board-context.tsx'
import { type PaneName, paneId, type When } from './pane-names.ts'
import styles from './pane-switch.module.css'

interface PaneSwitchProps {
  readonly when: When
  readonly names: readonly PaneName[]
  readonly shown: PaneName
  readonly onShow: (name: PaneName) => void
}

/** Chooses which of the panes that share a column is shown; at the bottom of a phone, above the column elsewhere. */
export function PaneSwitch({ when, names, shown, onShow }: PaneSwitchProps) {
  const { board } = useMessages()
  const waiting = useWaiting()
  return (
    <nav className={styles.switch} aria-label={board.panes}>
      {names.map((name) => {
        const waits = waiting[name]
        return (
          <button
            key={name}
            type="button"
            className={styles.choice}
            aria-current={name === shown}
            // A pane that was never in view may not stand in the page yet.
            aria-controls={name === shown ? paneId(name, when) : undefined}
            onClick={() => onShow(name)}
          >
            <span>{board.paneShort[name]}</span>
            {waits !== undefined && waits.count > 0 && (
              <span className={styles.waiting}>
                <Badge {...waits} />
              </span>
            )}
          </button>
        )
      })}
    </nav>
  )
}

interface Waiting {
  readonly count: number
  readonly label: string
}

/** What waits in a pane that may not be in view. */
function useWaiting(): Partial<Record<PaneName, Waiting>> {
  const { board } = useMessages()
  const questions = useTable('questions')
  const contingencies = useTable('contingencies')
  return useMemo(() => {
    const met = contingencies.filter(({ state }) => state === 'met').length
    const raised = questions.filter(({ state, foldedInto }) => state === 'raised' && foldedInto === undefined).length
    return {
      decisions: { count: met, label: board.contingenciesMet(met) },
      floor: { count: raised, label: board.questionsRaised(raised) },
    }
  }, [board, questions, contingencies])
}
