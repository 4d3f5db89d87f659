'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import type { CaseHeader } from '@/lib/board/records/case-header.ts'
import type { CourseOfSteps } from './course-of-steps.ts'
import { OctaveRule } from './octave-rule.tsx'
import styles from './waiting-view.module.css'

interface WaitingViewProps {
  readonly header: CaseHeader | undefined
  readonly course?: CourseOfSteps | undefined
  /** said instead of what comes next */
  readonly remark?: string | undefined
}

/** The calm card between two things: whose case this is and what comes next. */
export function WaitingView({ header, course, remark }: WaitingViewProps) {
  const { shell, words } = useMessages()
  return (
    <section className={styles.card}>
      <h1 className={styles.pseudonym}>{header?.pseudonym ?? shell.productName}</h1>
      {header !== undefined && <p className={styles.ear}>{words.ear[header.ear]}</p>}
      <OctaveRule />
      <div className={styles.next}>
        {remark !== undefined ? <p>{remark}</p> : <WhatComesNext header={header} course={course} />}
      </div>
    </section>
  )
}

function WhatComesNext({ header, course }: Pick<WaitingViewProps, 'header' | 'course'>) {
  const { screen } = useMessages().screens
  const coming = header?.phase === 'in-theatre' ? (course?.current ?? course?.next) : undefined
  if (coming === undefined) return header === undefined ? null : <p>{screen.waitingFor[header.phase]}</p>
  return (
    <>
      <p className={styles.label}>{course?.current === undefined ? screen.nextStep : screen.stepUnderWay}</p>
      <p className={styles.step}>
        {coming.number}. {coming.step.title}
      </p>
    </>
  )
}
