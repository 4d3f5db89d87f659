'use client'

import Link from 'next/link'
import { useBoard, useSingle } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-screens.ts'
import { useWords } from '@/app/screen/use-words.ts'
import { CaseHandout } from './case-handout.tsx'
import styles from './handout-pane.module.css'
import { useGenerationTime, usePageFoot } from './paper.ts'

/** The handout over the case's documents, with what is needed to print it; only the sheet itself is printed. */
export function HandoutPane() {
  const { caseId } = useBoard()
  const { handout } = useMessages().screens
  const { moment } = useWords()
  const pseudonym = useSingle('header')?.pseudonym ?? ''
  const generatedAt = useGenerationTime()
  usePageFoot(handout.pageFoot(pseudonym, moment(generatedAt)))
  return (
    <main className={styles.desk}>
      <nav className={styles.tools}>
        <Button tone="accent" onClick={() => print()}>
          {handout.print}
        </Button>
        <Link href={`/case/${caseId}/code`}>{handout.checkCode}</Link>
        <Link href={`/case/${caseId}`}>{handout.backToBoard}</Link>
      </nav>
      <CaseHandout generatedAt={generatedAt} checkAddress={`${location.origin}/case/${caseId}/code`} />
    </main>
  )
}
