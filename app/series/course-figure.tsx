'use client'

import { type Messages, useMessages } from '@/app/messages/for-series.ts'
import type { SeriesAnswer, SeriesMean } from '@/lib/interchange/series.ts'
import styles from './bars.module.css'
import { Figure } from './figure.tsx'
import { MeanCells, MeanHeads } from './mean-cell.tsx'
import { across, Plot, upwards } from './plot.tsx'

type Course = SeriesAnswer['course']

/** Thresholds get worse downwards. */
const level = upwards(100, 0)
const ticks = [0, 20, 40, 60, 80, 100]

/** How thresholds go over the visits, with how many ears each mean is of. */
export function CourseFigure({ course }: { readonly course: Course }) {
  const { series, words } = useMessages()
  return (
    <Figure
      title={series.course.title}
      name="course"
      note={series.course.note}
      chart={<Chart course={course} />}
      table={<CourseTable course={course} />}
      remarks={
        <p>{course.map((at) => words.labelled(placeName(at, series), series.ears(at.threshold.n))).join('. ')}.</p>
      }
    />
  )
}

const placeName = ({ occasion, year }: Course[number], { occasions, yearly }: Messages['series']): string =>
  year === null ? occasions[occasion] : yearly(year)

function Chart({ course }: { readonly course: Course }) {
  const { series } = useMessages()
  const placeOf = (index: number) => across((index + 0.5) / course.length)
  return (
    <Plot
      x={{
        label: series.course.visit,
        ticks: course.map((at, index) => ({ at: placeOf(index), text: placeName(at, series) })),
      }}
      y={{ label: series.axis.level, scale: level, ticks, textOf: series.whole }}
    >
      {course.map(({ occasion, year, threshold }, index) => (
        <Mean key={`${occasion} ${year}`} of={threshold} x={placeOf(index)} />
      ))}
    </Plot>
  )
}

function Mean({ of: { mean, low, high }, x }: { readonly of: SeriesMean; readonly x: number }) {
  if (mean === null) return null
  return (
    <g className={styles.estimate} data-sure="true">
      {low !== null && high !== null && <path d={`M${x} ${level(low)}V${level(high)}`} />}
      <circle cx={x} cy={level(mean)} r={5} />
    </g>
  )
}

function CourseTable({ course }: { readonly course: Course }) {
  const { series } = useMessages()
  return (
    <table>
      <thead>
        <tr>
          <td colSpan={2} />
          <th scope="colgroup" colSpan={3}>
            {series.course.threshold}
          </th>
          <th scope="colgroup" colSpan={3}>
            {series.course.gain}
          </th>
        </tr>
        <tr>
          <th scope="col">{series.course.visit}</th>
          <th scope="col">{series.course.earsWith}</th>
          <MeanHeads />
          <MeanHeads />
        </tr>
      </thead>
      <tbody>
        {course.map((at) => (
          <tr key={placeName(at, series)}>
            <th scope="row">{placeName(at, series)}</th>
            <td>{at.ears}</td>
            <MeanCells of={at.threshold} />
            <MeanCells of={at.gain} />
          </tr>
        ))}
      </tbody>
    </table>
  )
}
