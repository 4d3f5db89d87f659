'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import { useWords } from '@/app/screen/use-words.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import styles from './open-contingencies.module.css'
import { useFittingCount } from './use-fitting-count.ts'

/** As many contingencies as there is room for, most urgent first, and how many are not shown. */
export function OpenContingencies({ contingencies }: { contingencies: readonly Contingency[] }) {
  const { theatre } = useMessages().screens
  const { list, fitting } = useFittingCount()
  const hidden = Math.max(0, contingencies.length - fitting)
  return (
    <section className={styles.block} data-empty={contingencies.length === 0}>
      <h2 className={styles.head}>
        {theatre.contingencies}
        {hidden > 0 && <span className={styles.more}>{theatre.more(hidden)}</span>}
      </h2>
      {contingencies.length === 0 && <p className={styles.more}>{theatre.noContingencies}</p>}
      <ul ref={list} className={styles.list}>
        {contingencies.map((contingency, index) => (
          <IfThen key={contingency.id} contingency={contingency} shown={index < fitting} />
        ))}
      </ul>
    </section>
  )
}

function IfThen({ contingency: { state, trigger, plan }, shown }: { contingency: Contingency; shown: boolean }) {
  const { words, screens } = useMessages()
  const { trigger: inWords } = useWords()
  const isMet = state === 'met'
  return (
    <li className={styles.pair} data-state={state} data-shown={shown} aria-hidden={!shown}>
      <p className={styles.if}>
        {isMet && <strong className={styles.met}>▲ {words.labelled(words.contingencyState.met, '')}</strong>}
        {!isMet && `${screens.screen.triggerWord} `}
        {inWords(trigger)}
      </p>
      <p className={styles.then}>
        <span aria-hidden="true">→ </span>
        {plan}
      </p>
    </li>
  )
}
