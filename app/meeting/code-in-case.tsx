'use client'

import { useEffect } from 'react'
import { useBoard, useTable } from '@/app/board/board-context.tsx'
import { CodeAnswer } from '@/app/code/code-answer.tsx'
import pane from '@/app/code/code-pane.module.css'
import { codeOfSuccessor, findByCode } from '@/app/code/find-by-code.ts'
import { useMessages } from '@/app/messages/for-meeting.ts'
import { clockOf } from '@/app/messages/moments.ts'
import { useLinkLoss } from '@/app/screen/link-loss.ts'
import type { CaseId } from '@/lib/board/identity.ts'

/** What one case says of a code. `not-opened`: nothing can be said of this case. */
export type CodeReport = 'looking' | 'found' | 'not-here' | 'not-opened'

interface ReportProps {
  readonly caseId: CaseId
  readonly says: CodeReport
  readonly onReport: (caseId: CaseId, says: CodeReport) => void
}

/** Passes on what a case says; shows nothing. */
export function Report({ caseId, says, onReport }: ReportProps): null {
  useEffect(() => onReport(caseId, says), [caseId, says, onReport])
  return null
}

interface CodeInCaseProps extends Pick<ReportProps, 'onReport'> {
  readonly code: string
  readonly label: string
}

/** Looks for a code in one case, and goes on answering while the record changes. */
export function CodeInCase({ code, label, onReport }: CodeInCaseProps) {
  const { meeting, screens } = useMessages()
  const { caseId } = useBoard()
  const loss = useLinkLoss()
  const tables = { tests: useTable('tests'), speechTests: useTable('speechTests') }
  const found = findByCode(code, tables)
  if (found === undefined)
    return <Report caseId={caseId} says={loss.state === 'live' ? 'not-here' : 'looking'} onReport={onReport} />
  return (
    <>
      <Report caseId={caseId} says="found" onReport={onReport} />
      {loss.state === 'lost' && <p className={pane.old}>{screens.code.mayBeOld(clockOf(loss.since))}</p>}
      <p>{meeting.codeFoundIn(label)}</p>
      <CodeAnswer code={code} found={found} successor={codeOfSuccessor(found, tables)} />
    </>
  )
}
