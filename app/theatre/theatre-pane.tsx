'use client'

import { useMemo } from 'react'
import { useSingle, useTable, useThreads } from '@/app/board/board-context.tsx'
import { courseOfSteps, operationBeganAt } from '@/app/screen/course-of-steps.ts'
import { useLinkLoss } from '@/app/screen/link-loss.ts'
import { calledQuestion, contingenciesInTheatre, newestNote } from './theatre-content.ts'
import { type TheatreContent, TheatreView } from './theatre-view.tsx'

/** The theatre view over the case's documents. */
export function TheatrePane() {
  const header = useSingle('header')
  const steps = useTable('steps')
  const contingencies = useTable('contingencies')
  const notes = useTable('notes')
  const threads = useThreads()
  const content = useMemo<TheatreContent>(
    () => ({
      header,
      course: courseOfSteps(steps),
      beganAt: operationBeganAt(steps),
      question: calledQuestion(threads),
      contingencies: contingenciesInTheatre(contingencies),
      note: newestNote(notes),
    }),
    [header, steps, contingencies, notes, threads],
  )
  return <TheatreView content={content} loss={useLinkLoss()} />
}
