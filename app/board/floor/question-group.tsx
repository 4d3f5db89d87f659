'use client'

import { type ReactNode, useId } from 'react'
import { Badge } from '@/app/components/badge.tsx'
import { Button } from '@/app/components/button.tsx'
import { DownIcon, UpIcon } from '@/app/components/icons.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import type { QuestionState } from '@/lib/board/records/question.ts'
import styles from './question-group.module.css'
import type { Group } from './queue.ts'

interface QuestionGroupProps {
  readonly group: Group
  /** how many more one press shows */
  readonly more: number
  /** shuts the group (0) or shows so many of it */
  readonly onShow: (count: number) => void
  readonly children: (thread: Thread, index: number) => ReactNode
}

/** States that stand open by themselves; the others are opened by whoever looks for something in them. */
const alwaysOpen: readonly QuestionState[] = ['called', 'raised']

export function QuestionGroup({ group, more, onShow, children }: QuestionGroupProps) {
  const { floor, words } = useMessages()
  const titleId = useId()
  const { state, count, drawn } = group
  const title = words.questionState[state]
  if (count === 0) return null
  const left = count - drawn.length
  const isOpen = drawn.length > 0
  return (
    <section className={styles.group} aria-labelledby={titleId}>
      <h3 className={styles.title} id={titleId}>
        {alwaysOpen.includes(state) ? (
          title
        ) : (
          <button
            type="button"
            className={styles.toggle}
            aria-expanded={isOpen}
            onClick={() => onShow(isOpen ? 0 : more)}
          >
            {isOpen ? <UpIcon /> : <DownIcon />} {title}
          </button>
        )}
        <Badge count={count} label={floor.list.group(title, count)} />
      </h3>
      {isOpen && <ol className={styles.list}>{drawn.map(children)}</ol>}
      {isOpen && left > 0 && (
        <Button tone="plain" onClick={() => onShow(drawn.length + more)}>
          {floor.list.more(Math.min(more, left), left)}
        </Button>
      )}
    </section>
  )
}
