'use client'

import Link from 'next/link'
import { useMemo } from 'react'
import { useBoard, useMessages, useSingle, useTable } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { useLinkLoss } from '@/app/screen/link-loss.ts'
import { useWords } from '@/app/screen/use-words.ts'
import { Handout, type HandoutContent } from './handout.tsx'
import styles from './handout-pane.module.css'
import { useGenerationTime, usePageFoot } from './paper.ts'

/** The handout over the case's documents, with what is needed to print it; only the sheet itself is printed. */
export function HandoutPane() {
  const { caseId } = useBoard()
  const { handout } = useMessages().screens
  const { moment } = useWords()
  const content = useHandoutContent()
  const generatedAt = useGenerationTime()
  usePageFoot(handout.pageFoot(content.header?.pseudonym ?? '', moment(generatedAt)))
  return (
    <main className={styles.desk}>
      <nav className={styles.tools}>
        <Button tone="accent" onClick={() => print()}>
          {handout.print}
        </Button>
        <Link href={`/case/${caseId}/code`}>{handout.checkCode}</Link>
        <Link href={`/case/${caseId}`}>{handout.backToBoard}</Link>
      </nav>
      <LinkWarning />
      <Handout content={content} generatedAt={generatedAt} checkAddress={`${location.origin}/case/${caseId}/code`} />
    </main>
  )
}

/** Printed too: a sheet that may be old says so. */
function LinkWarning() {
  const { handout } = useMessages().screens
  const loss = useLinkLoss()
  if (loss.state === 'live') return null
  return (
    <p className={styles.warning} role="alert">
      <span aria-hidden="true">✕ </span>
      {loss.state === 'linking' ? handout.linking : handout.linkLost}
    </p>
  )
}

function useHandoutContent(): HandoutContent {
  const header = useSingle('header')
  const plan = useSingle('plan')
  const tests = useTable('tests')
  const speechTests = useTable('speechTests')
  const annotations = useTable('annotations')
  const contingencies = useTable('contingencies')
  return useMemo(
    () => ({ header, plan, tests, speechTests, annotations, contingencies }),
    [header, plan, tests, speechTests, annotations, contingencies],
  )
}
