'use client'

import { useMemo } from 'react'
import { useTable } from '@/app/board/board-context.tsx'
import { calendarDayHere } from '@/app/calendar-day.ts'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { dueness, nextVisitDue } from '@/lib/board/visit-plan.ts'
import { metByMeasurement } from '@/lib/board/watched-contingencies.ts'
import { benefitCourse } from '@/lib/outcomes/benefit-course.ts'
import { watchedOver } from '@/lib/outcomes/watched-over.ts'
import styles from './follow-up-summary.module.css'
import type { FollowUp } from './use-follow-up.ts'

export const contingenciesId = 'contingencies'
export const courseId = 'course'

/** What calls for somebody, in one line: contingencies that are met, the next visit, the benefit. */
export function FollowUpSummary({ facts }: { readonly facts: FollowUp }) {
  const { followUp } = useMessages()
  const contingencies = useTable('contingencies')
  const words = followUp.summary
  const met = useMemo(
    () =>
      contingencies.filter(({ state }) => state === 'met').length +
      metByMeasurement(contingencies, facts.course, watchedOver).length,
    [contingencies, facts],
  )
  const next = nextVisitDue(facts.visits)
  const due = next === undefined ? undefined : dueness(next, calendarDayHere(new Date()))
  const benefit = useMemo(
    () => benefitCourse(facts.course).findLast(({ state }) => state !== 'not-measured'),
    [facts.course],
  )
  return (
    <ul className={styles.summary} aria-label={words.title}>
      <li>
        <a href={`#${contingenciesId}`}>
          <StateSign tone={met > 0 ? 'caution' : 'quiet'}>{words.met(met)}</StateSign>
        </a>
      </li>
      <li>
        <StateSign tone={due === 'overdue' ? 'stop' : due === 'due' ? 'accent' : 'quiet'}>
          {next === undefined ? words.noVisit : words.next(calendarDayOf(next), due === 'overdue')}
        </StateSign>
      </li>
      {benefit !== undefined && (
        <li>
          <a href={`#${courseId}`}>
            <StateSign tone={benefit.state === 'lost' ? 'caution' : 'quiet'}>
              {words.benefit(followUp.course.benefitState[benefit.state].toLowerCase())}
            </StateSign>
          </a>
        </li>
      )}
    </ul>
  )
}
