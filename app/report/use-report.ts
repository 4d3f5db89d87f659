'use client'

import { useContext, useMemo } from 'react'
import { PeopleContext, useSingle, useTable } from '@/app/board/board-context.tsx'
import { useMessages } from '@/app/messages/for-report.ts'
import { operationDayOf } from '@/lib/board/day-of-operation.ts'
import { reportAppendix } from '@/lib/report/appendix.ts'
import { type CaseReport, caseReport, type ReportChoice } from '@/lib/report/case-report.ts'
import { appendixSheet } from './appendix-sheet.ts'
import { publicationSheet } from './publication-sheet.ts'
import { recordSheet } from './record-sheet.ts'
import type { Sheet } from './sheet.ts'

export interface ReportInWords {
  readonly report: CaseReport
  readonly sheets: readonly Sheet[]
}

/** The report of the open case, computed from its documents and put into words. */
export function useReport(choice: ReportChoice): ReportInWords {
  const messages = useMessages()
  const people = useContext(PeopleContext)
  const report = useCaseReport(choice)
  const appendix = useAppendix()
  return useMemo(() => {
    const words = { messages, nameOf: (of: string) => people.get(of)?.name ?? messages.board.unknownPerson }
    const sheets = [recordSheet(report, words), publicationSheet(report, words), appendixSheet(report, appendix, words)]
    return { report, sheets }
  }, [messages, people, report, appendix])
}

function useCaseReport({ visit, ears }: ReportChoice): CaseReport {
  const header = useSingle('header')
  const plan = useSingle('plan')
  const tests = useTable('tests')
  const speechTests = useTable('speechTests')
  const visits = useTable('visits')
  const forecasts = useTable('forecasts')
  const contingencies = useTable('contingencies')
  const steps = useTable('steps')
  return useMemo(() => {
    const operatedOn = operationDayOf(header, steps)
    const records = { header, plan, tests, speechTests, visits, forecasts, contingencies, operatedOn }
    return caseReport(records, { visit, ears })
  }, [header, plan, tests, speechTests, visits, forecasts, contingencies, steps, visit, ears])
}

function useAppendix() {
  const notes = useTable('notes')
  const votes = useTable('votes')
  const questions = useTable('questions')
  const visitItems = useTable('visitItems')
  const visits = useTable('visits')
  return useMemo(
    () => reportAppendix({ notes, votes, questions, visitItems, visits }),
    [notes, votes, questions, visitItems, visits],
  )
}
