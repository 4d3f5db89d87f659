'use client'

import type { CSSProperties, ReactNode } from 'react'
import { VisuallyHidden } from '@/app/components/visually-hidden.tsx'
import { useMessages } from '@/app/messages/for-screens.ts'
import type { CourseOfSteps, NumberedStep, OpenNeed } from '@/app/screen/course-of-steps.ts'
import { FittedText } from '@/app/screen/fitted-text.tsx'
import { elapsed } from '@/app/screen/formats.ts'
import styles from './step-now.module.css'

/** Characters, about, of a line of the smallest size and of a title that is read from afar. */
const textLine = 52
const titleLine = 35
/** How much taller a line of a title is than one of the smallest size. */
const titleSize = 2
const mostNamed = 2

const linesOf = (text: string, line: number): number => Math.max(1, Math.ceil(text.length / line))

/** Each part has room by the lines that it needs: a long check is not cut for a short title. */
const roomFor = (lines: number): CSSProperties => ({ '--lines': lines }) as CSSProperties

/** The step under way with its check and hazard, and the one after it; between steps the one that comes has the room. */
export function StepNow({ course, now }: { course: CourseOfSteps; now: Date }) {
  const { theatre } = useMessages().screens
  const { current, next, total } = course
  return (
    <section className={styles.steps} aria-label={theatre.now}>
      {current !== undefined ? (
        <>
          <Now numbered={current} total={total} now={now} />
          {/* After a jump the step under way needs the room itself. */}
          <Next next={next}>{next !== undefined && current.open.length === 0 && <NextWatch next={next} />}</Next>
        </>
      ) : next === undefined ? (
        <Standing where={course.where} />
      ) : (
        <Coming next={next} where={course.where} />
      )}
    </section>
  )
}

function Now({ numbered, total, now }: { numbered: NumberedStep; total: number; now: Date }) {
  const { theatre, screen } = useMessages().screens
  const { startedAt } = numbered.step
  return (
    <div className={styles.now}>
      <p className={styles.place}>
        <span>{screen.stepOf(numbered.number, total)}</span>
        {startedAt !== undefined && <span>{theatre.inStep(elapsed(startedAt, now, screen))}</span>}
      </p>
      <Whole step={numbered.step} open={numbered.open} />
    </div>
  )
}

/** None is under way: where the operation stands, and all of the step that comes. */
function Coming({ next, where }: { next: NumberedStep; where: CourseOfSteps['where'] }) {
  const { theatre } = useMessages().screens
  return (
    <div className={styles.now}>
      <p className={styles.place}>
        <span>{useStanding(where)}</span>
        <span>{theatre.nextNumber(next.number)}</span>
      </p>
      <Whole step={next.step} open={next.open} />
    </div>
  )
}

function Whole({ step, open }: Pick<NumberedStep, 'step' | 'open'>) {
  const { screen } = useMessages().screens
  return (
    <>
      <h1 className={styles.title} style={roomFor(titleSize * linesOf(step.title, titleLine))}>
        <FittedText continues={screen.continues}>{step.title}</FittedText>
      </h1>
      <OpenBefore open={open} />
      <Watch kind="check" label={screen.check} text={step.check} />
      <Watch kind="hazard" label={screen.hazard} text={step.hazard} />
    </>
  )
}

function Watch({ kind, label, text }: { kind: 'check' | 'hazard'; label: string; text: string }) {
  const { screen } = useMessages().screens
  if (text === '') return null
  return (
    <div className={styles.watch} data-kind={kind} style={roomFor(1 + linesOf(text, textLine))}>
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

/** Prerequisites that were jumped over: the first by name, so that check and hazard keep their room. */
function OpenBefore({ open }: { open: readonly OpenNeed[] }) {
  const { theatre } = useMessages().screens
  if (open.length === 0) return null
  const named = open.toSorted((a, b) => a.number - b.number).slice(0, mostNamed)
  const titles = named.map(({ number, title }) => theatre.numbered(number, title))
  return (
    <p className={styles.open}>
      <span aria-hidden="true">△ </span>
      {theatre.openBefore(titles, open.length)}
    </p>
  )
}

/** The title of the next step, and what of it there is room for. */
function Next({ next, children }: { next: NumberedStep | undefined; children?: ReactNode }) {
  const { theatre } = useMessages().screens
  return (
    <div className={styles.next}>
      <span className={styles.nextLabel}>{theatre.next}</span>
      <span className={styles.nextTitle}>
        {next === undefined ? theatre.lastStep : theatre.numbered(next.number, next.step.title)}
      </span>
      {children}
    </div>
  )
}

/** Check and hazard of the next step; what is under way before it is no news, what was jumped over is. */
function NextWatch({ next: { step, open } }: { next: NumberedStep }) {
  return (
    <div className={styles.nextWatch}>
      <OpenBefore open={open.filter(({ state }) => state === 'ahead')} />
      <NextLine kind="check" text={step.check} />
      <NextLine kind="hazard" text={step.hazard} />
    </div>
  )
}

function NextLine({ kind, text }: { kind: 'check' | 'hazard'; text: string }) {
  const { screen } = useMessages().screens
  if (text === '') return null
  return (
    <p className={styles.nextLine} data-kind={kind}>
      <span aria-hidden="true">{kind === 'hazard' ? '▲ ' : '☐ '}</span>
      <VisuallyHidden>{screen[kind]}: </VisuallyHidden>
      {text}
    </p>
  )
}

function useStanding(where: CourseOfSteps['where']): string {
  const { screen, theatre } = useMessages().screens
  return {
    'no-steps': theatre.noSteps,
    'not-begun': screen.notBegun,
    between: screen.betweenSteps,
    finished: screen.allStepsDone,
    'in-step': theatre.now,
  }[where]
}

function Standing({ where }: { where: CourseOfSteps['where'] }) {
  return (
    <div className={styles.now}>
      <h1 className={styles.standing}>{useStanding(where)}</h1>
    </div>
  )
}
