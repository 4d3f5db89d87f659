'use client'

import { useMessages } from '@/app/board/board-context.tsx'
import type { CourseOfSteps, NumberedStep } from '@/app/screen/course-of-steps.ts'
import { FittedText } from '@/app/screen/fitted-text.tsx'
import { elapsed } from '@/app/screen/formats.ts'
import styles from './step-now.module.css'

/** The step under way with its check and hazard, and the one after it. */
export function StepNow({ course, now }: { course: CourseOfSteps; now: Date }) {
  const { theatre } = useMessages().screens
  return (
    <section className={styles.steps} aria-label={theatre.now}>
      {course.current === undefined ? (
        <Standing where={course.where} />
      ) : (
        <Now numbered={course.current} total={course.total} now={now} />
      )}
      <Next course={course} />
    </section>
  )
}

function Now({ numbered: { step, number }, total, now }: { numbered: NumberedStep; total: number; now: Date }) {
  const { theatre, screen } = useMessages().screens
  return (
    <div className={styles.now}>
      <p className={styles.place}>
        <span>{screen.stepOf(number, total)}</span>
        {step.startedAt !== undefined && <span>{theatre.inStep(elapsed(step.startedAt, now, screen))}</span>}
      </p>
      <h1 className={styles.title}>
        <FittedText continues={screen.continues}>{step.title}</FittedText>
      </h1>
      <Watch kind="check" label={screen.check} text={step.check} />
      <Watch kind="hazard" label={screen.hazard} text={step.hazard} />
    </div>
  )
}

function Watch({ kind, label, text }: { kind: 'check' | 'hazard'; label: string; text: string }) {
  const { screen } = useMessages().screens
  if (text === '') return null
  return (
    <div className={styles.watch} data-kind={kind}>
      <h2>
        <span aria-hidden="true">{kind === 'hazard' ? '▲ ' : '☐ '}</span>
        {label}
      </h2>
      <div className={styles.words}>
        <FittedText largest="title" continues={screen.continues}>
          {text}
        </FittedText>
      </div>
    </div>
  )
}

function Next({ course: { next, where, total } }: { course: CourseOfSteps }) {
  const { theatre } = useMessages().screens
  if (total === 0) return null
  return (
    <p className={styles.next}>
      <span className={styles.nextLabel}>{theatre.next}</span>
      <span className={styles.nextTitle}>
        {next === undefined ? where === 'in-step' && theatre.lastStep : `${next.number}. ${next.step.title}`}
      </span>
    </p>
  )
}

function Standing({ where }: { where: CourseOfSteps['where'] }) {
  const { screen, theatre } = useMessages().screens
  const sentence = {
    'no-steps': theatre.noSteps,
    'not-begun': screen.notBegun,
    between: screen.betweenSteps,
    finished: screen.allStepsDone,
    'in-step': theatre.now,
  }[where]
  return (
    <div className={styles.now}>
      <h1 className={styles.standing}>{sentence}</h1>
    </div>
  )
}
