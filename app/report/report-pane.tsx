'use client'

import Link from 'next/link'
import { useState } from 'react'
import { useBoard } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { visitName } from '@/app/follow-up/visit-name.ts'
import desk from '@/app/handout/handout-pane.module.css'
import { useGenerationTime, usePageFoot } from '@/app/handout/paper.ts'
import { useMessages } from '@/app/messages/for-report.ts'
import { calendarDayOf, dayAndClockOf } from '@/app/messages/moments.ts'
import { useLinkLoss } from '@/app/screen/link-loss.ts'
import type { CaseReport, ReportChoice } from '@/lib/report/case-report.ts'
import { publicationTable } from '@/lib/report/publication-csv.ts'
import styles from './report-pane.module.css'
import { saveFile } from './save-file.ts'
import { SheetView } from './sheet-view.tsx'
import { usePdf } from './use-pdf.ts'
import { useReport } from './use-report.ts'

/** The report of a case on paper, with what is needed to choose, print and take it along; only the sheets are printed. */
export function ReportPane() {
  const { label } = useBoard()
  const { report: words, shell, words: shared } = useMessages()
  const [choice, setChoice] = useState<ReportChoice>({ ears: 'operated' })
  const { report, sheets } = useReport(choice)
  const pseudonym = report.header?.pseudonym ?? label
  const generatedAt = useGenerationTime()
  const moment = dayAndClockOf(generatedAt)
  const foot = words.foot(pseudonym, moment)
  usePageFoot(foot)
  const name = words.fileName(pseudonym.replaceAll(/[^\p{L}\p{N}]+/gu, '-'), generatedAt.slice(0, 10))
  const generated = words.generated(moment)
  return (
    <main className={desk.desk}>
      <title>{`${shared.labelled(pseudonym, words.pageTitle)} - ${shell.productName}`}</title>
      <h1 className={styles.title}>{shared.labelled(pseudonym, words.pageTitle)}</h1>
      <Tools>
        <ChoiceFields report={report} choice={choice} onChoose={setChoice} />
        <Button tone="accent" onClick={() => print()}>
          {words.print}
        </Button>
        <PdfButton name={name} make={usePdf({ sheets, pseudonym, generated, generatedAt, foot })} />
        <TableButtons report={report} name={name} />
      </Tools>
      <LinkWarning />
      {sheets.map((sheet) => (
        <SheetView key={sheet.kind} sheet={sheet} pseudonym={pseudonym} generated={generated} />
      ))}
    </main>
  )
}

function Tools({ children }: { readonly children: React.ReactNode }) {
  const { caseId } = useBoard()
  const { report: words } = useMessages()
  return (
    <nav className={`${desk.tools} ${styles.tools}`} aria-label={words.pageTitle}>
      {children}
      <Link href={`/case/${caseId}/follow-up`}>{words.toFollowUp}</Link>
      <Link href={`/case/${caseId}`}>{words.toBoard}</Link>
    </nav>
  )
}

interface ChoiceProps {
  readonly report: CaseReport
  readonly choice: ReportChoice
  readonly onChoose: (choice: ReportChoice) => void
}

function ChoiceFields({ report, choice, onChoose }: ChoiceProps) {
  const messages = useMessages()
  const words = messages.report
  return (
    <>
      <Field label={words.visit}>
        {(control) => (
          <select
            {...control}
            disabled={report.heldVisits.length === 0}
            value={report.visit?.id ?? ''}
            onChange={({ target }) => onChoose({ ...choice, visit: target.value })}
          >
            {report.heldVisits.length === 0 && <option value="">{words.noVisit}</option>}
            {report.heldVisits.map((visit) => (
              <option key={visit.id} value={visit.id}>
                {words.visitOn(visitName(visit, messages), calendarDayOf(visit.held.on))}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={words.ears}>
        {(control) => (
          <select
            {...control}
            value={choice.ears}
            onChange={({ target }) => onChoose({ ...choice, ears: target.value === 'both' ? 'both' : 'operated' })}
          >
            {(['operated', 'both'] as const).map((ears) => (
              <option key={ears} value={ears}>
                {words.earChoice[ears]}
              </option>
            ))}
          </select>
        )}
      </Field>
    </>
  )
}

interface PdfButtonProps {
  readonly name: string
  readonly make: ReturnType<typeof usePdf>
}

function PdfButton({ name, make }: PdfButtonProps) {
  const { report: words } = useMessages()
  const [state, setState] = useState<'idle' | 'making' | 'failed'>('idle')
  const [unsettable, setUnsettable] = useState(0)
  const download = async () => {
    setState('making')
    try {
      const pdf = await make()
      saveFile(`${name}.pdf`, new Blob([pdf.bytes], { type: 'application/pdf' }))
      setUnsettable(pdf.unsettable)
      setState('idle')
    } catch (fault) {
      console.warn(fault)
      setState('failed')
    }
  }
  return (
    <>
      <Button disabled={state === 'making'} onClick={download}>
        {state === 'making' ? words.downloading : words.download}
      </Button>
      {state === 'failed' && <p role="alert">{words.downloadFailed}</p>}
      {state === 'idle' && unsettable > 0 && <p role="alert">{words.unsettable(unsettable)}</p>}
    </>
  )
}

function TableButtons({ report, name }: { readonly report: CaseReport; readonly name: string }) {
  const { report: words } = useMessages()
  const say = useSay()
  const [failed, setFailed] = useState(false)
  const copy = () =>
    navigator.clipboard.writeText(publicationTable(report, '\t')).then(
      () => {
        setFailed(false)
        say(words.copied)
      },
      () => setFailed(true),
    )
  const download = () =>
    saveFile(`${name}.csv`, new Blob([publicationTable(report, ',')], { type: 'text/csv;charset=utf-8' }))
  return (
    <>
      <Button onClick={copy}>{words.copy}</Button>
      <Button onClick={download}>{words.csv}</Button>
      {failed && <p role="alert">{words.copyFailed}</p>}
    </>
  )
}

/** Printed too: a sheet that may be old says so. */
function LinkWarning() {
  const { report: words } = useMessages()
  const loss = useLinkLoss()
  if (loss.state === 'live') return null
  return (
    <p className={styles.warning} role="alert">
      <span aria-hidden="true">✕ </span>
      {loss.state === 'linking' ? words.linking : words.linkLost}
    </p>
  )
}
