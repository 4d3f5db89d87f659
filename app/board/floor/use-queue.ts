'use client'

import { useCallback, useState } from 'react'
import { type JumpTarget, useJumps } from '@/app/board/jump.ts'
import { useRovingRows } from '@/app/components/roving-rows.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { QuestionState } from '@/lib/board/records/question.ts'
import type { KindName } from '@/lib/board/records.ts'
import { firstShown, groupsOf, revealing, withWords } from './queue.ts'

const questionKinds: readonly KindName[] = ['questions']

/** How one person looks at the queue: what is drawn of each state, which thread is open, which row has the focus. */
export function useQueue(threads: readonly Thread[]) {
  const [shown, setShown] = useState(firstShown)
  const [open, setOpen] = useState<RecordId>()
  const [words, setWords] = useState('')
  const groups = groupsOf(withWords(threads, words), shown)
  const drawn = groups.flatMap((group) => group.drawn)
  const rows = useRovingRows(drawn.map(({ question }) => question.id))
  const { focusRow } = rows
  const goTo = useCallback(
    ({ id }: JumpTarget) => {
      setWords('')
      setShown((before) => revealing(before, threads, id))
      setOpen(id)
      focusRow(id)
    },
    [threads, focusRow],
  )
  useJumps(questionKinds, goTo)
  return {
    groups,
    rows,
    words,
    setWords,
    open,
    setOpen,
    toggle: (id: RecordId) => setOpen(open === id ? undefined : id),
    show: (state: QuestionState, count: number) => setShown((before) => ({ ...before, [state]: count })),
    /** the question that keys act upon */
    current: drawn.find(({ question }) => question.id === rows.current),
  }
}
