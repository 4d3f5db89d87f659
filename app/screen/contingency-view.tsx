'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import styles from './contingency-view.module.css'
import { FittedText } from './fitted-text.tsx'
import { PersonLine } from './person-line.tsx'
import { ScreenCard } from './screen-card.tsx'
import { StageState } from './stage-state.tsx'
import { useWords } from './use-words.ts'

/** "If ... then ..." and how it stands. */
export function ContingencyView({ contingency }: { contingency: Contingency }) {
  const { screen } = useMessages().screens
  const { trigger } = useWords()
  return (
    <ScreenCard
      kind={screen.contingency}
      aside={<StageState of={contingency} />}
      foot={<Moved contingency={contingency} />}
    >
      <div className={styles.halves}>
        <h2 className={styles.word}>{screen.triggerWord}</h2>
        <div className={styles.clause} data-half="if">
          <FittedText largest="display" continues={screen.continues}>
            {trigger(contingency.trigger)}
          </FittedText>
        </div>
        <h2 className={styles.word}>{screen.planWord}</h2>
        <div className={styles.clause} data-half="then">
          <FittedText largest="display" continues={screen.continues}>
            {contingency.plan}
          </FittedText>
        </div>
      </div>
    </ScreenCard>
  )
}

function Moved({ contingency: { moved, author } }: { contingency: Contingency }) {
  const { screen } = useMessages().screens
  const { day, clock } = useWords()
  if (moved === undefined) return <PersonLine participant={author} />
  const when = `${day(moved.at)}, ${clock(moved.at)}`
  return (
    <p className={styles.moved}>
      <span className={styles.why}>{moved.why === '' ? when : screen.movedBecause(when, moved.why)}</span>
      <PersonLine participant={moved.by} />
    </p>
  )
}
