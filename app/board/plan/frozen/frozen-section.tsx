'use client'

import { useCallback } from 'react'
import { useTable } from '@/app/board/board-context.tsx'
import { type JumpTarget, useJumps } from '@/app/board/jump.ts'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { KindName } from '@/lib/board/records.ts'
import type { DeviceOption } from '@/lib/devices/classes.ts'
import type { WhatIf } from '../case-forecast.ts'
import { FrozenRow, frozenRowId } from './frozen-row.tsx'
import styles from './frozen-section.module.css'
import { newestFirst } from './standing-scenarios.ts'

const kinds: readonly KindName[] = ['scenarios']

interface FrozenSectionProps {
  readonly onOpen: (option: DeviceOption, whatIf: WhatIf) => void
}

/** What was frozen, with its answer; opened again in the sliders it is computed anew from the record as it stands. */
export default function FrozenSection({ onOpen }: FrozenSectionProps) {
  const { whatIf } = useMessages()
  const scenarios = useTable('scenarios')
  const questions = useTable('questions')
  const goTo = useCallback(({ id }: JumpTarget) => document.getElementById(frozenRowId(id))?.focus(), [])
  useJumps(kinds, goTo)
  if (scenarios.length === 0) return null
  const superseded = new Set(scenarios.map(({ supersedes }) => supersedes))
  return (
    <section className={styles.section} aria-label={whatIf.frozen.title}>
      <h3 className={styles.title}>{whatIf.frozen.title}</h3>
      <ul className={styles.list}>
        {newestFirst(scenarios).map((scenario) => (
          <FrozenRow
            key={scenario.id}
            scenario={scenario}
            isSuperseded={superseded.has(scenario.id)}
            question={questions.find(({ id }) => id === scenario.question)?.text}
            onOpen={onOpen}
          />
        ))}
      </ul>
    </section>
  )
}
