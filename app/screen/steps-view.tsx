'use client'

import { useNow } from '@/app/board/steps/use-now.ts'
import { useMessages } from '@/app/messages/for-screens.ts'
import type { CourseOfSteps, NumberedStep } from './course-of-steps.ts'
import { FittedText } from './fitted-text.tsx'
import { elapsed } from './formats.ts'
import { ScreenCard } from './screen-card.tsx'
import styles from './steps-view.module.css'

const tickMs = 5000

/** The step before, the one under way and the next one. */
export function StepsView({ course }: { course: CourseOfSteps }) {
  const { screen } = useMessages().screens
  const { current, previous, next, total, where } = course
  return (
    <ScreenCard kind={screen.steps} aside={current && screen.stepOf(current.number, total)}>
      <ol className={styles.course} data-where={where}>
        {previous !== undefined && <Beside label={screen.previous} numbered={previous} sign="✓" />}
        {current !== undefined ? <Current numbered={current} /> : <Standing where={where} />}
        {next !== undefined && <Beside label={screen.next} numbered={next} />}
      </ol>
    </ScreenCard>
  )
}

function Beside({ label, numbered, sign = '' }: { label: string; numbered: NumberedStep; sign?: string }) {
  return (
    <li className={styles.beside}>
      <span className={styles.number}>{numbered.number}</span>
      <span className={styles.besideTitle}>{numbered.step.title}</span>
      <span className={styles.when}>
        {label} <span aria-hidden="true">{sign}</span>
      </span>
    </li>
  )
}

function Current({ numbered: { step, number } }: { numbered: NumberedStep }) {
  const { screen } = useMessages().screens
  const now = useNow(tickMs)
  return (
    <li className={styles.current} aria-current="step">
      <span className={styles.number}>{number}</span>
      <div className={styles.title}>
        <FittedText largest="display" continues={screen.continues}>
          {step.title}
        </FittedText>
      </div>
      <span className={styles.when}>
        {step.startedAt === undefined ? screen.current : elapsed(step.startedAt, now, screen)}
      </span>
      <dl className={styles.watch}>
        <Watch kind="check" label={screen.check} text={step.check} />
        <Watch kind="hazard" label={screen.hazard} text={step.hazard} />
      </dl>
    </li>
  )
}

function Watch({ kind, label, text }: { kind: 'check' | 'hazard'; label: string; text: string }) {
  const { screen } = useMessages().screens
  if (text === '') return null
  return (
    <div className={styles.watched} data-kind={kind}>
      <dt>
        <span aria-hidden="true">{kind === 'hazard' ? '▲ ' : '☐ '}</span>
        {label}
      </dt>
      <dd>
        <FittedText largest="lead" continues={screen.continues}>
          {text}
        </FittedText>
      </dd>
    </div>
  )
}

function Standing({ where }: { where: CourseOfSteps['where'] }) {
  const { screen } = useMessages().screens
  const sentences = {
    'no-steps': screen.noSteps,
    'not-begun': screen.notBegun,
    between: screen.betweenSteps,
    finished: screen.allStepsDone,
    'in-step': '',
  }
  return <li className={styles.standing}>{sentences[where]}</li>
}
