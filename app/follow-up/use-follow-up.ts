'use client'

import { useMemo } from 'react'
import { useSingle, useTable } from '@/app/board/board-context.tsx'
import { operationDayOf } from '@/lib/board/day-of-operation.ts'
import { earCourseOf, standingForecast } from '@/lib/board/ear-course.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { ForecastRecord } from '@/lib/board/records/sealed-record.ts'
import type { Visit } from '@/lib/board/records/visit.ts'
import { inOrderOfTime } from '@/lib/board/visit-plan.ts'
import type { EarCourse } from '@/lib/outcomes/ear-course.ts'
import { type Ear, otherEar } from '@/lib/units/frequencies.ts'

/** The case after its operation, as all parts of the page read it. */
export interface FollowUp {
  /** the operated ear */
  readonly ear: Ear
  readonly operatedOn: string | undefined
  /** in the order of time */
  readonly visits: readonly Visit[]
  readonly tests: readonly HearingTest[]
  readonly course: EarCourse
  readonly otherCourse: EarCourse
  readonly forecast: ForecastRecord | undefined
}

export function useFollowUp(): FollowUp {
  const header = useSingle('header')
  const plan = useSingle('plan')
  const steps = useTable('steps')
  const visits = useTable('visits')
  const tests = useTable('tests')
  const speechTests = useTable('speechTests')
  const forecasts = useTable('forecasts')
  return useMemo(() => {
    const ear = plan?.ear ?? header?.ear ?? 'right'
    const operatedOn = operationDayOf(header, steps)
    const records = { tests, speechTests, visits, forecasts, operatedOn }
    return {
      ear,
      operatedOn,
      visits: inOrderOfTime(visits),
      tests,
      course: earCourseOf({ ...records, ear }),
      otherCourse: earCourseOf({ ...records, ear: otherEar(ear) }),
      forecast: standingForecast({ ear, forecasts }),
    }
  }, [header, plan, steps, visits, tests, speechTests, forecasts])
}
