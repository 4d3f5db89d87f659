'use client'

import { useTable } from '@/app/board/board-context.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import type { NextStep } from '@/lib/board/records/contingency.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import { visitName } from './visit-name.ts'

const titleLength = 80

/** How what an act led to is called. */
export function useNextNames(): (next: NextStep) => string {
  const messages = useMessages()
  const { followUp, words } = messages
  const notes = useTable('notes')
  const contingencies = useTable('contingencies')
  const visits = useTable('visits')
  return ({ kind, id }) => {
    const sort = followUp.watch.nextKind[kind]
    const title = titleOf()
    return title === '' ? sort : words.labelled(sort, title.slice(0, titleLength))

    function titleOf(): string {
      const note = kind === 'notes' ? notes.find((one) => one.id === id) : undefined
      if (note !== undefined) return plainText(note.body).split('\n')[0] ?? ''
      const visit = kind === 'visits' ? visits.find((one) => one.id === id) : undefined
      if (visit !== undefined) return visitName(visit, messages)
      return (kind === 'contingencies' ? contingencies.find((one) => one.id === id)?.plan : undefined) ?? ''
    }
  }
}
