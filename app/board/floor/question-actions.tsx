'use client'

import { Button } from '@/app/components/button.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { DownIcon, UpIcon } from '@/app/components/icons.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './question-actions.module.css'
import { type QuestionAct, type QuestionRights, questionActs, questionKeys } from './question-rights.ts'
import type { Task } from './question-row.tsx'

interface QuestionActionsProps {
  readonly rights: QuestionRights
  readonly hasScreen: boolean
  readonly task: Task | undefined
  readonly onAct: (act: QuestionAct) => void
  readonly onShift: (by: -1 | 1) => void
}

/** What may be done to the current question, each with its key. Backing has its own button beside the words. */
export function QuestionActions({ rights, hasScreen, task, onAct, onShift }: QuestionActionsProps) {
  const { floor } = useMessages()
  const acts = questionActs.filter((act) => act !== 'back' && (act === 'screen' ? hasScreen : rights[act]))
  if (acts.length === 0) return null
  return (
    <div className={styles.actions}>
      {acts.map((act) => (
        <Button
          key={act}
          tone="quiet"
          aria-keyshortcuts={questionKeys[act]}
          aria-expanded={act === task ? true : undefined}
          onClick={() => onAct(act)}
        >
          {floor.act[act]} <kbd className={styles.key}>{questionKeys[act]}</kbd>
        </Button>
      ))}
      {rights.order && (
        <span className={styles.order}>
          <IconButton label={floor.act.up} aria-keyshortcuts="Alt+ArrowUp" onClick={() => onShift(-1)}>
            <UpIcon />
          </IconButton>
          <IconButton label={floor.act.down} aria-keyshortcuts="Alt+ArrowDown" onClick={() => onShift(1)}>
            <DownIcon />
          </IconButton>
        </span>
      )}
    </div>
  )
}
