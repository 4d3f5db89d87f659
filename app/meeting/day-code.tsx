'use client'

import Link from 'next/link'
import { useCallback, useState } from 'react'
import { BoardProvider } from '@/app/board/board-provider.tsx'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'
import { CodeAnswer } from '@/app/code/code-answer.tsx'
import { CodeForm } from '@/app/code/code-form.tsx'
import pane from '@/app/code/code-pane.module.css'
import { useMessages } from '@/app/messages/for-meeting.ts'
import type { CaseId } from '@/lib/board/identity.ts'
import type { ProgrammeDetail } from '@/lib/interchange/api.ts'
import type { TypedCode } from '@/lib/interchange/record-code.ts'
import { CodeInCase, type CodeReport, Report } from './code-in-case.tsx'
import { useProgramme } from './use-programme.ts'

/** Where somebody with a sheet of the meeting types its code, without knowing which case it is of. */
export default function DayCode({ programmeId }: { programmeId: string }) {
  const following = useProgramme(programmeId)
  const { meeting, screens } = useMessages()
  const [read, setRead] = useState<TypedCode>()
  if (following.state !== 'following')
    return <OpeningNotice reason={following.state === 'failed' ? following.reason : undefined} />
  return (
    <main className={pane.page}>
      <h1 className={pane.title}>{meeting.codeTitle}</h1>
      <p className={pane.explanation}>{screens.code.explanation}</p>
      <CodeForm read={read} onRead={setRead} />
      <div aria-live="polite">{read?.ok && <Answers key={read.code} code={read.code} detail={following.detail} />}</div>
      <p>
        <Link href={`/programme/${programmeId}`}>{meeting.backToProgramme}</Link>
      </p>
    </main>
  )
}

/** Cases are opened once a code was typed, each reports, and only when all have is a code unknown. */
function Answers({ code, detail: { cases } }: { code: string; detail: ProgrammeDetail }) {
  const { meeting } = useMessages()
  const [reports, setReports] = useState<ReadonlyMap<CaseId, CodeReport>>(new Map())
  const report = useCallback(
    (caseId: CaseId, found: CodeReport) => setReports((before) => new Map(before).set(caseId, found)),
    [],
  )
  const looking = cases.filter(({ id }) => (reports.get(id) ?? 'looking') === 'looking').length
  const isFound = cases.some(({ id }) => reports.get(id) === 'found')
  const isMissing = cases.some(({ id }) => reports.get(id) === 'not-opened')
  return (
    <>
      {!isFound && looking > 0 && <p role="status">{meeting.codeLooking(looking)}</p>}
      {!isFound && looking === 0 && (
        <CodeAnswer
          code={code}
          found={undefined}
          successor={undefined}
          meaningUnknown={isMissing ? meeting.codeNotAll : meeting.codeUnknown}
        />
      )}
      {cases.map(({ id, label }) => (
        <BoardProvider
          key={id}
          caseId={id}
          notice={(reason) => (
            <Report caseId={id} says={reason === undefined ? 'looking' : 'not-opened'} onReport={report} />
          )}
        >
          <CodeInCase code={code} label={label} onReport={report} />
        </BoardProvider>
      ))}
    </>
  )
}
