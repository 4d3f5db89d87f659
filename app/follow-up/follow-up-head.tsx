'use client'

import { useBoard, useSingle } from '@/app/board/board-context.tsx'
import styles from '@/app/board/frame/board-head.module.css'
import { StoredSign } from '@/app/board/frame/stored-sign.tsx'
import { EarSign } from '@/app/components/ear-sign.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { ThemeSwitch } from '@/app/theme/theme-switch.tsx'
import type { FollowUp } from './use-follow-up.ts'

/** Whose follow-up it is, whether what is written is stored, and the way back to the board. */
export function FollowUpHead({ facts }: { readonly facts: FollowUp }) {
  const { followUp, words } = useMessages()
  const { caseId, label } = useBoard()
  const header = useSingle('header')
  return (
    <header className={styles.head}>
      <div className={styles.name}>
        <a className={styles.programme} href={`/case/${caseId}`}>
          <span aria-hidden="true">←</span> {followUp.toBoard}
        </a>
        <h1 className={styles.title}>{words.labelled(header?.pseudonym ?? label, followUp.title)}</h1>
      </div>
      <div className={styles.facts}>
        <EarSign ear={facts.ear} />
        {header !== undefined && <StateSign tone="quiet">{words.phase[header.phase]}</StateSign>}
        <StoredSign />
      </div>
      <div className={styles.tools}>
        <a href={`/case/${caseId}/report`}>{followUp.toReport}</a>
        <ThemeSwitch />
      </div>
    </header>
  )
}
