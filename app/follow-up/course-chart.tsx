'use client'

import { useMessages } from '@/app/messages/for-follow-up.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import type { Measured } from '@/lib/outcomes/band-value.ts'
import styles from './course-chart.module.css'
import type { CourseRow } from './course-table.tsx'
import type { FollowUp } from './use-follow-up.ts'

interface CourseChartProps {
  readonly facts: FollowUp
  readonly rows: readonly CourseRow[]
}

const size = { width: 780, height: 240, left: 44, right: 220, top: 12, bottom: 34 } as const
/** dB HL at the upper and the lower edge; hearing gets worse downwards, as in an audiogram. */
const levels = { top: 0, bottom: 100 } as const
const shown: readonly CourseRow['measure'][] = ['aided-threshold', 'bone-conduction', 'air-conduction']
/** Standard normal quantile of 0.975. */
const chanceFactor = 1.959963984540054
const dayMs = 86_400_000

/** Thresholds of both ears over time, with the 95 % test-retest error of each mean. The table has the same numbers. */
export function CourseChart({ facts, rows }: CourseChartProps) {
  const { followUp, words } = useMessages()
  const { visits } = facts.course
  const lines = rows.filter(({ measure }) => shown.includes(measure))
  const first = visits[0]?.on
  const last = visits.at(-1)?.on
  if (first === undefined || last === undefined || visits.length < 2 || lines.length === 0) return null
  const start = facts.operatedOn ?? first
  const span = Math.max(1, daysBetween(start, last))
  const x = (day: string) => size.left + (daysBetween(start, day) / span) * (size.width - size.left - size.right)
  return (
    <svg className={styles.chart} viewBox={`0 0 ${size.width} ${size.height}`} aria-hidden="true">
      {[0, 20, 40, 60, 80, 100].map((level) => (
        <g key={level}>
          <path className={styles.grid} d={`M${size.left} ${y(level)}H${size.width - size.right}`} />
          <text className={styles.tick} x={size.left - 6} y={y(level) + 4} textAnchor="end">
            {level}
          </text>
        </g>
      ))}
      {visits.map(({ visit, on }) => (
        <text key={visit} className={styles.tick} x={x(on)} y={size.height - 10} textAnchor="middle">
          {calendarDayOf(on)}
        </text>
      ))}
      {labelled(lines).map(({ row, labelY }) => (
        <g key={`${row.ear} ${row.measure}`} className={styles.line} data-ear={row.ear} data-measure={row.measure}>
          <path d={pathOf(row, visits, x)} />
          {row.visits.map((at, index) => {
            const day = visits[index]?.on
            return at === undefined || day === undefined ? null : <Mean key={day} at={at} x={x(day)} />
          })}
          <text className={styles.label} x={size.width - size.right + 10} y={labelY}>
            {followUp.course.row(words.earShort[row.ear], followUp.course.measure[row.measure].toLowerCase())}
          </text>
        </g>
      ))}
    </svg>
  )
}

const daysBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / dayMs

function y(level: number): number {
  const share = (level - levels.top) / (levels.bottom - levels.top)
  return size.top + Math.min(1, Math.max(0, share)) * (size.height - size.top - size.bottom)
}

function Mean({ at: { value, sdDb }, x }: { readonly at: Measured; readonly x: number }) {
  if (value.low !== value.high) return null
  const half = chanceFactor * sdDb
  return (
    <>
      <path d={`M${x} ${y(value.low - half)}V${y(value.low + half)}`} />
      <circle cx={x} cy={y(value.low)} r={3.5} />
    </>
  )
}

function pathOf(row: CourseRow, visits: FollowUp['course']['visits'], x: (day: string) => number): string {
  const places = row.visits.flatMap((at, index) => {
    const day = visits[index]?.on
    return at === undefined || day === undefined || at.value.low !== at.value.high
      ? []
      : [`${x(day)} ${y(at.value.low)}`]
  })
  return places.length > 1 ? `M${places.join('L')}` : ''
}

const labelHeight = 16

/** Names stand beside the last value of their line, moved down where two would lie over each other. */
function labelled(lines: readonly CourseRow[]): readonly { readonly row: CourseRow; readonly labelY: number }[] {
  const wanted = lines
    .flatMap((row) => {
      const last = row.visits.findLast((at) => at !== undefined)
      return last === undefined || last.value.low !== last.value.high ? [] : [{ row, at: y(last.value.low) + 4 }]
    })
    .toSorted((a, b) => a.at - b.at)
  let above = Number.NEGATIVE_INFINITY
  return wanted.map(({ row, at }) => {
    above = Math.max(at, above + labelHeight)
    return { row, labelY: above }
  })
}
