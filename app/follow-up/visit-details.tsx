'use client'

import { type FormEvent, useState } from 'react'
import { useBoard, useMay, usePerson } from '@/app/board/board-context.tsx'
import { calendarDayHere } from '@/app/calendar-day.ts'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { changeVisit, holdVisit, moveVisit } from '@/lib/board/edits/visits.ts'
import { CalendarDay } from '@/lib/board/identity.ts'
import type { Visit } from '@/lib/board/records/visit.ts'
import { Complications } from './complications.tsx'
import type { FollowUp } from './use-follow-up.ts'
import styles from './visit-details.module.css'
import { VisitForm } from './visit-form.tsx'
import { visitName } from './visit-name.ts'

interface VisitProps {
  readonly facts: FollowUp
  readonly visit: Visit
}

/** When a visit is or was, what was found, how the device is set, and what went wrong. */
export function VisitDetails({ facts, visit }: VisitProps) {
  const messages = useMessages()
  const { words } = messages
  const may = useMay().mayChange('visits', 'findings', visit)
  return (
    <Pane
      title={visitName(visit, messages)}
      actions={<StateSign tone={visit.state === 'held' ? 'good' : 'quiet'}>{words.visitState[visit.state]}</StateSign>}
    >
      <VisitDay facts={facts} visit={visit} mayChange={may} />
      <HeldBy visit={visit} />
      {visit.state === 'held' && <Complications visit={visit} mayChange={may} />}
      {may ? <VisitForm visit={visit} /> : <VisitText visit={visit} />}
    </Pane>
  )
}

function HeldBy({ visit: { held } }: Pick<VisitProps, 'visit'>) {
  const { followUp, board } = useMessages()
  const person = usePerson(held?.by ?? '')
  if (held === undefined) return null
  return (
    <p className={styles.fine}>
      {followUp.visits.held(calendarDayOf(held.on))} · {followUp.visit.heldBy(person?.name ?? board.unknownPerson)}
    </p>
  )
}

/** The day on which a visit is held or planned, with what becomes of it. */
function VisitDay({ facts, visit, mayChange }: VisitProps & { readonly mayChange: boolean }) {
  const { followUp } = useMessages()
  const { record, pen } = useBoard()
  const say = useSay()
  const today = calendarDayHere(new Date())
  const [day, setDay] = useState(visit.held?.on ?? earlierOf(visit.plannedOn ?? today, today))
  const [problem, setProblem] = useState<string>()
  const words = followUp.visit
  if (!mayChange) return null
  const hold = (event: FormEvent) => {
    event.preventDefault()
    const fault = dayFault(day, today, facts.operatedOn, followUp)
    setProblem(fault)
    if (fault !== undefined) return
    holdVisit(record, pen, visit.id, day)
    say(words.saved)
  }
  return (
    <div className={styles.row}>
      {visit.state !== 'called-off' && (
        <form className={styles.row} onSubmit={hold} noValidate>
          <Field label={words.hold} error={problem}>
            {(control) => (
              <input {...control} type="date" max={today} value={day} onChange={({ target }) => setDay(target.value)} />
            )}
          </Field>
          <Button type="submit" tone={visit.state === 'held' ? 'plain' : 'accent'}>
            {visit.state === 'held' ? words.correctDay : words.holdNow}
          </Button>
        </form>
      )}
      <VisitMoves visit={visit} />
      {visit.state === 'planned' && <PlannedDay visit={visit} />}
    </div>
  )
}

const earlierOf = (a: string, b: string): string => (a < b ? a : b)

type Words = ReturnType<typeof useMessages>['followUp']

function dayFault(day: string, today: string, operatedOn: string | undefined, followUp: Words): string | undefined {
  if (!CalendarDay.safeParse(day).success) return followUp.operation.missing
  if (day > today) return followUp.visit.future
  if (operatedOn === undefined) return followUp.notOperated
  return day < operatedOn ? followUp.visit.before(calendarDayOf(operatedOn)) : undefined
}

function VisitMoves({ visit: { id, state, plannedOn } }: Pick<VisitProps, 'visit'>) {
  const { followUp } = useMessages()
  const { record } = useBoard()
  const words = followUp.visit
  if (state === 'planned')
    return (
      <>
        <Button onClick={() => moveVisit(record, id, 'missed')}>{words.missed}</Button>
        <Button onClick={() => moveVisit(record, id, 'called-off')}>{words.callOff}</Button>
      </>
    )
  if (state !== 'held' && plannedOn === undefined) return null
  return (
    <Button tone="quiet" onClick={() => moveVisit(record, id, plannedOn === undefined ? 'called-off' : 'planned')}>
      {state === 'held' ? words.undo : words.planAgain}
    </Button>
  )
}

function PlannedDay({ visit }: Pick<VisitProps, 'visit'>) {
  const { followUp } = useMessages()
  const { record } = useBoard()
  return (
    <Field label={followUp.visit.plannedOn}>
      {(control) => (
        <input
          {...control}
          type="date"
          value={visit.plannedOn ?? ''}
          onChange={({ target }) => {
            if (CalendarDay.safeParse(target.value).success) changeVisit(record, visit.id, { plannedOn: target.value })
          }}
        />
      )}
    </Field>
  )
}

/** What those read who may not change it. */
function VisitText({ visit: { settings, findings, note } }: Pick<VisitProps, 'visit'>) {
  const { followUp } = useMessages()
  const words = followUp.visit
  const used = settings && [words.changes[settings.change], settings.words].filter((text) => text !== '').join('. ')
  return (
    <dl>
      {[
        [words.settings, used],
        [words.findings, findings],
        [words.note, note],
      ]
        .filter(([, text]) => text !== undefined && text !== '')
        .map(([name, text]) => (
          <div key={name}>
            <dt className={styles.heading}>{name}</dt>
            <dd dir="auto">{text}</dd>
          </div>
        ))}
    </dl>
  )
}
