'use client'

import { useMemo } from 'react'
import { useBoard } from '@/app/board/board-context.tsx'
import { useTyping, useTypists } from '@/app/board/presence.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import { setPoint, setRepeat } from '@/lib/board/edits/hearing.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { entryFrequencies } from './hearing-view.ts'
import { RepeatField } from './repeat-field.tsx'
import styles from './test-desk.module.css'
import { inWords, useNames } from './test-facts.ts'
import { ThresholdGrid } from './threshold-grid.tsx'
import { useLastChanges } from './use-last-changes.ts'

interface TestDeskProps {
  readonly test: HearingTest
  readonly extended: boolean
  readonly onTable: (text: string) => void
}

/** The numbers of the test in focus, entered by keyboard and shared with everyone while they are typed. */
export function TestDesk({ test, extended, onTable }: TestDeskProps) {
  const { record } = useBoard()
  const { hearing, audiogram } = useMessages()
  const nameOf = useNames()
  const place = `tests/${test.id}`
  const typing = useTyping()
  const typists = useTypists(place)
  const changes = useLastChanges(test.id, hearing.grid.somebody)
  const above8k = extended || Object.keys(test.points).some((key) => Number(key.split('.')[2]) > 8000)
  const frequencies = useMemo(() => entryFrequencies(above8k, true), [above8k])
  return (
    <section className={styles.desk}>
      {typists.length > 0 && (
        <p className={styles.typists} aria-live="polite">
          {hearing.grid.typing(typists.map(({ name }) => name).join(', '))}
        </p>
      )}
      <ThresholdGrid
        key={test.id}
        sentence={audiogram.testSentence(inWords(test, nameOf))}
        test={test}
        frequencies={frequencies}
        changes={changes}
        onSet={(key, point) => setPoint(record, test.id, key, point)}
        onTable={onTable}
        onTyping={(now) => typing(now ? place : null)}
      />
      {test.condition === 'unaided' && (
        <RepeatField
          key={`repeat ${test.id}`}
          level={test.repeatAt1000}
          onSet={(level) => setRepeat(record, test.id, level)}
        />
      )}
    </section>
  )
}
