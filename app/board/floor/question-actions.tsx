'use client'

import type { ReactNode } from 'react'
import { ActBar, ActButton, OrderButtons } from '@/app/components/act-bar.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { type QuestionAct, type QuestionRights, questionActs, questionKeys } from './question-rights.ts'
import type { Task } from './question-row.tsx'

interface QuestionActionsProps {
  readonly rights: QuestionRights
  readonly hasScreen: boolean
  readonly task: Task | undefined
  readonly onAct: (act: QuestionAct) => void
  readonly onShift: (by: -1 | 1) => void
  /** what else may be done to it where it stands */
  readonly more?: ReactNode
}

/** What may be done to the current question, each with its key. Backing has its own button beside the words. */
export function QuestionActions({ rights, hasScreen, task, onAct, onShift, more }: QuestionActionsProps) {
  const { floor } = useMessages()
  const acts = questionActs.filter((act) => act !== 'back' && (act === 'screen' ? hasScreen : rights[act]))
  if (acts.length === 0) return null
  return (
    <ActBar>
      {acts.map((act) => (
        <ActButton
          key={act}
          label={floor.act[act]}
          shortcut={questionKeys[act]}
          isOpen={act === task}
          onAct={() => onAct(act)}
        />
      ))}
      {more}
      {rights.order && <OrderButtons up={floor.act.up} down={floor.act.down} onShift={onShift} />}
    </ActBar>
  )
}
