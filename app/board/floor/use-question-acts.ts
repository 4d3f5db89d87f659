'use client'

import { type KeyboardEvent, useState } from 'react'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { FloorDesk } from './floor-desk.ts'
import { type QuestionAct, questionActs, questionKeys, questionRights } from './question-rights.ts'
import type { Task } from './question-row.tsx'

/** What one person does to questions: at once where one press is enough, else by opening the form for it. */
export function useQuestionActs(threads: readonly Thread[], desk: FloorDesk, openThread: (id: RecordId) => void) {
  const { floor } = useMessages()
  const say = useSay()
  const [task, setTask] = useState<{ readonly id: RecordId; readonly task: Task }>()
  const { acts } = desk

  const shift = (thread: Thread, by: -1 | 1) => {
    const queue = threads.filter(({ question }) => question.state === thread.question.state)
    const to = queue.indexOf(thread) + by
    if (to < 0 || to >= queue.length) return
    acts.shift(thread.question.id, by)
    say(floor.list.inQueue(to + 1))
  }
  const act = (thread: Thread, what: QuestionAct) => {
    const { id } = thread.question
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
      default:
        if (what === 'reply') openThread(id)
        return setTask({ id, task: what })
    }
  }
  const rightsTo = (thread: Thread) => questionRights(thread, desk.may, desk.me, desk.own)
  /** True when the key belongs to an act that this person may do to the question as it stands. */
  const onKey = (thread: Thread, { key, altKey, ctrlKey, metaKey }: KeyboardEvent): boolean => {
    const rights = rightsTo(thread)
    const by = key === 'ArrowUp' ? -1 : key === 'ArrowDown' ? 1 : undefined
    if (altKey && by !== undefined && rights.order) {
      shift(thread, by)
      return true
    }
    if (altKey || ctrlKey || metaKey) return false
    const mayDo = (name: QuestionAct) => (name === 'screen' ? acts.screen !== undefined : rights[name])
    const what = questionActs.find((name) => questionKeys[name] === key && mayDo(name))
    if (what !== undefined) act(thread, what)
    return what !== undefined
  }
  return {
    act,
    shift,
    onKey,
    rightsTo,
    taskOf: (id: RecordId) => (task?.id === id ? task.task : undefined),
    endTask: () => setTask(undefined),
  }
}
