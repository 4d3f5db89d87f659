'use client'

import { type FormEvent, useState } from 'react'
import { useBoard, useMay, useSingle } from '@/app/board/board-context.tsx'
import { calendarDayHere } from '@/app/calendar-day.ts'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { type Messages, useMessages } from '@/app/messages/for-follow-up.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { addUnscheduled, planVisits, setOperationDay } from '@/lib/board/edits/visits.ts'
import { CalendarDay, type RecordId } from '@/lib/board/identity.ts'
import { isHeld, type Visit, type VisitState } from '@/lib/board/records/visit.ts'
import { type Dueness, dueness, usualVisits } from '@/lib/board/visit-plan.ts'
import type { FollowUp } from './use-follow-up.ts'
import styles from './visit-list.module.css'
import { visitName } from './visit-name.ts'

interface VisitListProps {
  readonly facts: FollowUp
  readonly chosen: RecordId | undefined
  readonly onChoose: (visit: RecordId) => void
}

/** All visits in the order of time with what is due, and the plan that they come from. */
export function VisitList({ facts, chosen, onChoose }: VisitListProps) {
  const { followUp } = useMessages()
  const may = useMay()
  const today = calendarDayHere(new Date())
  return (
    <Pane title={followUp.visits.title}>
      {facts.visits.length > 0 && (
        <ul className={styles.list}>
          {facts.visits.map((visit) => (
            <li key={visit.id}>
              <VisitRow visit={visit} today={today} isChosen={visit.id === chosen} onChoose={onChoose} />
            </li>
          ))}
        </ul>
      )}
      {may.mayCreate('visits') && <PlanTools facts={facts} today={today} onChoose={onChoose} />}
    </Pane>
  )
}

interface VisitRowProps {
  readonly visit: Visit
  readonly today: string
  readonly isChosen: boolean
  readonly onChoose: (visit: RecordId) => void
}

const stateTones: Readonly<Record<VisitState, Tone>> = {
  planned: 'quiet',
  held: 'good',
  missed: 'caution',
  'called-off': 'superseded',
}
const dueTones: Readonly<Record<Exclude<Dueness, 'later'>, Tone>> = { due: 'accent', overdue: 'stop' }

function VisitRow({ visit, today, isChosen, onChoose }: VisitRowProps) {
  const messages = useMessages()
  const { followUp, words } = messages
  const { state, plannedOn, held } = visit
  const due = state === 'planned' && plannedOn !== undefined ? dueness(plannedOn, today) : 'later'
  return (
    <button
      type="button"
      className={styles.visit}
      aria-current={isChosen ? 'true' : undefined}
      onClick={() => onChoose(visit.id)}
    >
      <span className={styles.name}>{visitName(visit, messages)}</span>
      {due === 'later' ? (
        <StateSign tone={stateTones[state]}>{words.visitState[state]}</StateSign>
      ) : (
        <StateSign tone={dueTones[due]}>{followUp.visits.due[due]}</StateSign>
      )}
      <span className={styles.day}>
        {held !== undefined
          ? followUp.visits.held(calendarDayOf(held.on))
          : plannedOn !== undefined && followUp.visits.plannedFor(calendarDayOf(plannedOn))}
      </span>
    </button>
  )
}

interface PlanToolsProps {
  readonly facts: FollowUp
  readonly today: string
  readonly onChoose: (visit: RecordId) => void
}

function PlanTools({ facts, today, onChoose }: PlanToolsProps) {
  const { followUp } = useMessages()
  const { record, pen } = useBoard()
  const say = useSay()
  const [years, setYears] = useState(2)
  const { operatedOn, visits } = facts
  const fitted = visits.find((visit) => visit.occasion === 'first-fitting' && isHeld(visit))?.held?.on
  const plan = (operated: string) => {
    planVisits(record, pen, usualVisits(operated, fitted, years))
    say(followUp.visits.planned)
  }
  return (
    <div className={styles.tools}>
      <OperationDay facts={facts} today={today} />
      {operatedOn === undefined ? (
        <p className={styles.hint}>{followUp.notOperated}</p>
      ) : (
        <>
          <p className={styles.hint}>{followUp.visits.planHint}</p>
          <div className={styles.row}>
            <Field label={followUp.visits.years}>
              {(control) => (
                <select {...control} value={years} onChange={({ target }) => setYears(Number(target.value))}>
                  {[1, 2, 3, 5, 10].map((year) => (
                    <option key={year} value={year}>
                      {year}
                    </option>
                  ))}
                </select>
              )}
            </Field>
            <Button tone={visits.length === 0 ? 'accent' : 'plain'} onClick={() => plan(operatedOn)}>
              {visits.length === 0 ? followUp.visits.plan : followUp.visits.planAgain}
            </Button>
          </div>
          <Button onClick={() => onChoose(addUnscheduled(record, pen, today))}>{followUp.visits.unscheduled}</Button>
        </>
      )}
    </div>
  )
}

type OperationWords = Messages['followUp']['operation']

function operationFault(
  day: string,
  today: string,
  firstHeld: string | undefined,
  words: OperationWords,
): string | undefined {
  if (!CalendarDay.safeParse(day).success) return words.missing
  if (day > today) return words.future
  return firstHeld !== undefined && day > firstHeld ? words.afterVisit(calendarDayOf(firstHeld)) : undefined
}

function OperationDay({ facts, today }: { readonly facts: FollowUp; readonly today: string }) {
  const { operatedOn } = facts
  const firstHeld = facts.visits.find(isHeld)?.held.on
  const { followUp } = useMessages()
  const { record, pen } = useBoard()
  const header = useSingle('header')
  const say = useSay()
  const [typed, setTyped] = useState<string>()
  const [problem, setProblem] = useState<string>()
  const day = typed ?? operatedOn ?? ''
  const words = followUp.operation
  const save = (event: FormEvent) => {
    event.preventDefault()
    const fault = operationFault(day, today, firstHeld, words)
    setProblem(fault)
    if (fault !== undefined) return
    setOperationDay(record, pen, day)
    setTyped(undefined)
    say(words.saved)
  }
  if (header === undefined) return <p className={styles.hint}>{words.describeFirst}</p>
  const isFromSteps = operatedOn !== undefined && header.operatedOn === undefined
  return (
    <form className={styles.row} onSubmit={save} noValidate>
      <Field label={words.day} error={problem} {...(isFromSteps ? { hint: words.fromSteps } : {})}>
        {(control) => (
          <input {...control} type="date" max={today} value={day} onChange={({ target }) => setTyped(target.value)} />
        )}
      </Field>
      <Button type="submit">{followUp.save}</Button>
    </form>
  )
}
