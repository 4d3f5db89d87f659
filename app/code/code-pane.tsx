'use client'

import Link from 'next/link'
import { useState } from 'react'
import { useBoard, useTable } from '@/app/board/board-context.tsx'
import { useMessages } from '@/app/messages/for-screens.ts'
import { type LinkLoss, useLinkLoss } from '@/app/screen/link-loss.ts'
import { useWords } from '@/app/screen/use-words.ts'
import type { TypedCode } from '@/lib/interchange/record-code.ts'
import { CodeAnswer } from './code-answer.tsx'
import { CodeForm } from './code-form.tsx'
import styles from './code-pane.module.css'
import { codeOfSuccessor, findByCode } from './find-by-code.ts'

/** Where somebody with a printed sheet types its code and reads whether it still holds. */
export function CodePane() {
  const { caseId } = useBoard()
  const { code: words } = useMessages().screens
  const [read, setRead] = useState<TypedCode>()
  const loss = useLinkLoss()
  return (
    <main className={styles.page}>
      <h1 className={styles.title}>{words.title}</h1>
      <p className={styles.explanation}>{words.explanation}</p>
      <CodeForm read={read} onRead={setRead} />
      <div aria-live="polite">{read?.ok && <Answer code={read.code} loss={loss} />}</div>
      <p>
        <Link className={styles.onward} href={`/case/${caseId}/handout`}>
          {words.toHandout}
        </Link>
      </p>
    </main>
  )
}

/** Follows the board: a record that is superseded while the answer stands changes it. */
function Answer({ code, loss }: { code: string; loss: LinkLoss }) {
  const { code: words } = useMessages().screens
  const { clock } = useWords()
  const tests = useTable('tests')
  const speechTests = useTable('speechTests')
  const tables = { tests, speechTests }
  const found = findByCode(code, tables)
  // What is not here yet is not unknown.
  if (found === undefined && loss.state === 'linking') return <p>{words.waiting}</p>
  return (
    <>
      {loss.state === 'lost' && <p className={styles.old}>{words.mayBeOld(clock(loss.since))}</p>}
      <CodeAnswer code={code} found={found} successor={found && codeOfSuccessor(found, tables)} />
    </>
  )
}
