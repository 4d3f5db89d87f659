'use client'

import { useMemo } from 'react'
import { Pane } from '@/app/components/pane.tsx'
import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { type Messages, useMessages } from '@/app/messages/for-follow-up.ts'
import { type BenefitState, benefitCourse } from '@/lib/outcomes/benefit-course.ts'
import type { EarCourse } from '@/lib/outcomes/ear-course.ts'
import { type FourToneAt, fourToneCourse } from '@/lib/outcomes/four-tone-course.ts'
import { type Ear, otherEar } from '@/lib/units/frequencies.ts'
import { CourseChart } from './course-chart.tsx'
import type { FollowUp } from './use-follow-up.ts'
import { visitName } from './visit-name.ts'
import styles from './wide-table.module.css'

const tones: Readonly<Record<BenefitState, Tone>> = {
  first: 'quiet',
  held: 'good',
  lost: 'caution',
  'cannot-tell': 'quiet',
  'not-measured': 'quiet',
}

/** Both ears over all visits in means of four tones, and whether the benefit is still there. */
export function CourseTable({ facts }: { readonly facts: FollowUp }) {
  const messages = useMessages()
  const { followUp } = messages
  const words = followUp.course
  const rows = useMemo(
    () => [...rowsOf(facts.ear, facts.course), ...rowsOf(otherEar(facts.ear), facts.otherCourse)],
    [facts],
  )
  const benefit = useMemo(() => benefitCourse(facts.course), [facts])
  const columns = facts.course.visits.flatMap(({ visit }) => facts.visits.filter(({ id }) => id === visit))
  if (columns.length === 0) return null
  return (
    <Pane title={words.title}>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling table has to be reached by keyboard */}
      <section className={styles.scroll} tabIndex={0} aria-label={words.caption}>
        <CourseChart facts={facts} rows={rows} />
        <table className={styles.table}>
          <caption>{words.caption}</caption>
          <thead>
            <tr>
              <td />
              <th scope="col">{words.before}</th>
              {columns.map((visit) => (
                <th key={visit.id} scope="col">
                  {visitName(visit, messages)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ ear, measure, before, visits }) => (
              <tr key={`${ear} ${measure}`}>
                <th scope="row">{words.row(messages.words.ear[ear], words.measure[measure])}</th>
                <td>{cellText(before, messages)}</td>
                {visits.map((at, index) => (
                  <td key={columns[index]?.id}>{cellText(at, messages)}</td>
                ))}
              </tr>
            ))}
            <tr>
              <th scope="row">{words.benefit}</th>
              <td />
              {benefit.map(({ visit, state }) => (
                <td key={visit}>
                  <StateSign tone={tones[state]}>{words.benefitState[state]}</StateSign>
                </td>
              ))}
            </tr>
          </tbody>
        </table>
      </section>
      <p className={styles.fine}>{words.benefitHint}</p>
    </Pane>
  )
}

export interface CourseRow {
  readonly ear: Ear
  readonly measure: FourToneAt['measure']
  readonly before: FourToneAt['before']
  readonly visits: FourToneAt['visits']
}

/** Measures of which nothing was ever measured say nothing. */
const rowsOf = (ear: Ear, course: EarCourse): readonly CourseRow[] =>
  fourToneCourse(course)
    .filter(({ before, visits }) => [before, ...visits].some((at) => at !== undefined))
    .map((row) => ({ ear, ...row }))

function cellText(at: FourToneAt['before'], { followUp }: Messages): string {
  const { course, plain } = followUp
  if (at === undefined) return course.none
  const { low, high } = at.value
  const error = course.error(chanceFactor * at.sdDb)
  if (low === high) return `${plain(low)} ${error}`
  return high === Number.POSITIVE_INFINITY ? course.atLeast(plain(low)) : course.atMost(plain(high))
}

/** Standard normal quantile of 0.975. */
const chanceFactor = 1.959963984540054
