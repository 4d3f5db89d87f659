'use client'

import type { KeyboardEvent } from 'react'
import { OwnQuestions } from '@/app/board/later-parts.ts'
import { isTyping } from '@/app/board/shortcuts.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import { AskForm } from './ask-form.tsx'
import type { FloorDesk } from './floor-desk.ts'
import styles from './floor-view.module.css'
import { QuestionGroup } from './question-group.tsx'
import { QuestionRow } from './question-row.tsx'
import { pageLength } from './queue.ts'
import { useQuestionActs } from './use-question-acts.ts'
import { useQueue } from './use-queue.ts'

interface FloorViewProps {
  readonly threads: readonly Thread[]
  readonly desk: FloorDesk
}

/** From how many questions on a box to find words in them is worth its place. */
const findFrom = 12

/** The floor as its people see it: their own question first, then the called one, the queue, and what is closed. */
export function FloorView({ threads, desk }: FloorViewProps) {
  const { floor } = useMessages()
  const queue = useQueue(threads)
  const acts = useQuestionActs(threads, desk, queue.setOpen)
  const isAsker = threads.some(({ question, folded }) =>
    [question, ...folded].some(({ author }) => author === desk.me || desk.own.has(author)),
  )
  const onKeyDown = (event: KeyboardEvent) => {
    if (isTyping(event.target) || isInForm(event.target) || queue.current === undefined) return
    if (queue.rows.onArrow(event) || acts.onKey(queue.current, event)) event.preventDefault()
  }
  return (
    <div className={styles.floor}>
      {desk.may.mayCreate('questions') && <AskForm desk={desk} />}
      {isAsker && <OwnQuestions threads={threads} desk={desk} />}
      {threads.length > findFrom && (
        <Field label={floor.list.find}>
          {(control) => (
            <input
              {...control}
              type="search"
              value={queue.words}
              onChange={(event) => queue.setWords(event.target.value)}
            />
          )}
        </Field>
      )}
      {threads.length === 0 && <EmptyHint title={floor.list.nothingTitle}>{floor.list.nothing}</EmptyHint>}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: keys of the focused question inside, as its buttons say */}
      <div className={styles.groups} {...queue.rows.area} onKeyDown={onKeyDown}>
        {queue.groups.map((group) => (
          <QuestionGroup
            key={group.state}
            group={group}
            onShow={(count) => queue.show(group.state, count)}
            more={pageLength}
          >
            {(thread, index) => (
              <QuestionRow
                key={thread.question.id}
                thread={thread}
                place={group.state === 'raised' && queue.words === '' ? index + 1 : undefined}
                threads={threads}
                desk={desk}
                rights={acts.rightsTo(thread)}
                rowProps={queue.rows.rowProps(thread.question.id)}
                isCurrent={thread === queue.current}
                isOpen={queue.open === thread.question.id}
                task={acts.taskOf(thread.question.id)}
                onToggle={() => queue.toggle(thread.question.id)}
                onAct={(what) => acts.act(thread, what)}
                onTaskDone={acts.endTask}
                onShift={(by) => acts.shift(thread, by)}
              />
            )}
          </QuestionGroup>
        ))}
      </div>
    </div>
  )
}

const isInForm = (target: EventTarget): boolean => target instanceof Element && target.closest('form') !== null
