'use client'

import { type KeyboardEvent, useCallback, useState } from 'react'
import { type JumpTarget, useJumps } from '@/app/board/jump.ts'
import { isTyping } from '@/app/board/shortcuts.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { Field } from '@/app/components/field.tsx'
import { useRovingRows } from '@/app/components/roving-rows.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import type { KindName } from '@/lib/board/records.ts'
import { AskForm } from './ask-form.tsx'
import type { FloorDesk } from './floor-desk.ts'
import styles from './floor-view.module.css'
import { QuestionGroup } from './question-group.tsx'
import { type QuestionAct, questionActs, questionKeys, questionRights } from './question-rights.ts'
import { QuestionRow, type Task } from './question-row.tsx'
import { firstShown, groupsOf, pageLength, revealing, withWords } from './queue.ts'

interface FloorViewProps {
  readonly threads: readonly Thread[]
  readonly desk: FloorDesk
}

/** From how many questions on a box to find words in them is worth its place. */
const findFrom = 12
const questionKinds: readonly KindName[] = ['questions']

/** The floor as its people see it: their own question first, then the called one, the queue, and what is closed. */
export function FloorView({ threads, desk }: FloorViewProps) {
  const { floor } = useMessages()
  const [shown, setShown] = useState(firstShown)
  const [open, setOpen] = useState<string>()
  const [task, setTask] = useState<{ readonly id: string; readonly task: Task }>()
  const [words, setWords] = useState('')
  const groups = groupsOf(withWords(threads, words), shown)
  const drawn = groups.flatMap((group) => group.drawn)
  const rows = useRovingRows(drawn.map(({ question }) => question.id))
  const rightsTo = (thread: Thread) => questionRights(thread, desk.may, desk.me)

  const { focusRow } = rows
  const goTo = useCallback(
    ({ id }: Pick<JumpTarget, 'id'>) => {
      setWords('')
      setShown((before) => revealing(before, threads, id))
      setOpen(id)
      focusRow(id)
    },
    [threads, focusRow],
  )
  useJumps(questionKinds, goTo)

  const act = (thread: Thread, what: QuestionAct) => {
    const { id } = thread.question
    const { acts } = desk
    switch (what) {
      case 'call':
        return acts.call(id)
      case 'setAside':
        return acts.setAside(id)
      case 'reopen':
        return acts.reopen(id)
      case 'back':
        return acts.back(thread)
      case 'screen':
        return acts.screen?.(id)
      case 'reply':
        setOpen(id)
        return setTask({ id, task: what })
      default:
        return setTask({ id, task: what })
    }
  }

  const onKeyDown = (event: KeyboardEvent) => {
    if (isTyping(event.target) || isInForm(event.target)) return
    const thread = drawn.find(({ question }) => question.id === rows.current)
    if (thread === undefined) return
    if (rows.onArrow(event) || actOnKey(event, thread)) event.preventDefault()
  }
  const actOnKey = (event: KeyboardEvent, thread: Thread): boolean => {
    const rights = rightsTo(thread)
    const by = { ArrowUp: -1, ArrowDown: 1 } as const
    if (event.altKey && rights.order && (event.key === 'ArrowUp' || event.key === 'ArrowDown')) {
      desk.acts.shift(thread.question.id, by[event.key])
      return true
    }
    if (event.altKey || event.ctrlKey || event.metaKey) return false
    const what = questionActs.find((name) => questionKeys[name] === event.key && isAllowed(name, rights))
    if (what !== undefined) act(thread, what)
    return what !== undefined
  }
  const isAllowed = (name: QuestionAct, rights: ReturnType<typeof rightsTo>) =>
    name === 'screen' ? desk.acts.screen !== undefined : rights[name]

  return (
    <div className={styles.floor}>
      {desk.may.mayCreate('questions') && <AskForm desk={desk} />}
      {threads.length > findFrom && (
        <Field label={floor.list.find}>
          {(control) => (
            <input {...control} type="search" value={words} onChange={(event) => setWords(event.target.value)} />
          )}
        </Field>
      )}
      {threads.length === 0 && <EmptyHint title={floor.list.nothingTitle}>{floor.list.nothing}</EmptyHint>}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: keys of the focused question inside, as its buttons say */}
      <div className={styles.groups} {...rows.area} onKeyDown={onKeyDown}>
        {groups.map((group) => (
          <QuestionGroup
            key={group.state}
            group={group}
            onShow={(count) => setShown((before) => ({ ...before, [group.state]: count }))}
            more={pageLength}
          >
            {(thread, index) => (
              <QuestionRow
                key={thread.question.id}
                thread={thread}
                place={group.state === 'raised' && words === '' ? index + 1 : undefined}
                threads={threads}
                desk={desk}
                rights={rightsTo(thread)}
                rowProps={rows.rowProps(thread.question.id)}
                isCurrent={thread.question.id === rows.current}
                isOpen={open === thread.question.id}
                task={task?.id === thread.question.id ? task.task : undefined}
                onToggle={() => setOpen(open === thread.question.id ? undefined : thread.question.id)}
                onAct={(what) => act(thread, what)}
                onTaskDone={() => setTask(undefined)}
                onShift={(by) => desk.acts.shift(thread.question.id, by)}
              />
            )}
          </QuestionGroup>
        ))}
      </div>
    </div>
  )
}

const isInForm = (target: EventTarget): boolean => target instanceof Element && target.closest('form') !== null
