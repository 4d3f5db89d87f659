'use client'

import Link from 'next/link'
import { type FormEvent, useState } from 'react'
import { useBoard, useMessages, useTable } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { type LinkLoss, useLinkLoss } from '@/app/screen/link-loss.ts'
import { useWords } from '@/app/screen/use-words.ts'
import { parseRecordCode, type TypedCode } from '@/lib/interchange/record-code.ts'
import { CodeAnswer } from './code-answer.tsx'
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
        <Link href={`/case/${caseId}/handout`}>{words.toHandout}</Link>
      </p>
    </main>
  )
}

interface CodeFormProps {
  readonly read: TypedCode | undefined
  readonly onRead: (read: TypedCode | undefined) => void
}

const longestTyped = 60

function CodeForm({ read, onRead }: CodeFormProps) {
  const { code: words } = useMessages().screens
  const [typed, setTyped] = useState('')
  const submit = (event: FormEvent) => {
    event.preventDefault()
    onRead(parseRecordCode(typed))
  }
  return (
    <form className={styles.form} onSubmit={submit}>
      <Field label={words.label} error={read?.ok === false ? problemOf(read, words.problem) : undefined}>
        {(control) => (
          <input
            {...control}
            className={styles.input}
            value={typed}
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            maxLength={longestTyped}
            onChange={(event) => {
              setTyped(event.target.value)
              onRead(undefined)
            }}
          />
        )}
      </Field>
      <Button type="submit" tone="accent">
        {words.check}
      </Button>
    </form>
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

type ProblemWords = ReturnType<typeof useMessages>['screens']['code']['problem']

function problemOf(read: Extract<TypedCode, { ok: false }>, words: ProblemWords): string {
  switch (read.problem) {
    case 'length':
      return words.length(read.characters, read.expected)
    case 'character':
      return words.character(read.character, read.position)
    case 'check':
      return words.check
    default:
      return read satisfies never
  }
}
