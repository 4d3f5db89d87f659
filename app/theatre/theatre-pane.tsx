'use client'

import { useMemo } from 'react'
import { useSingle, useTable, useThreads } from '@/app/board/board-context.tsx'
import { courseOfSteps } from '@/app/screen/course-of-steps.ts'
import { useLinkLoss } from '@/app/screen/link-loss.ts'
import { operationTime } from '@/lib/board/operation-time.ts'
import { calledQuestion, contingenciesInTheatre, newestNote, voteInTheatre } from './theatre-content.ts'
import { type TheatreContent, TheatreView } from './theatre-view.tsx'

/** The theatre view over the case's documents. */
export function TheatrePane() {
  const header = useSingle('header')
  const steps = useTable('steps')
  const contingencies = useTable('contingencies')
  const notes = useTable('notes')
  const threads = useThreads()
  const votes = useTable('votes')
  const content = useMemo<TheatreContent>(
    () => ({
      header,
      course: courseOfSteps(steps),
      time: operationTime(steps),
      question: calledQuestion(threads),
      contingencies: contingenciesInTheatre(contingencies),
      note: newestNote(notes),
      vote: voteInTheatre(votes),
    }),
    [header, steps, contingencies, notes, threads, votes],
  )
  return <TheatreView content={content} loss={useLinkLoss()} />
}
