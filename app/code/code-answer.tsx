'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import { useWords } from '@/app/screen/use-words.ts'
import styles from './code-answer.module.css'
import type { CodedRecord } from './find-by-code.ts'

interface CodeAnswerProps {
  readonly code: string
  readonly found: CodedRecord | undefined
  /** code of the record that took its place */
  readonly successor: string | undefined
  /** what it means that no record has it; said of one case unless given */
  readonly meaningUnknown?: string
}

const signs = { current: '✓', superseded: '✕', 'entered-in-error': '✕', unknown: '?' } as const

/** Whether the paper still holds, in one word first, then why. */
export function CodeAnswer({ code, found, successor, meaningUnknown }: CodeAnswerProps) {
  const { code: words } = useMessages().screens
  const state = found?.test.state ?? 'unknown'
  return (
    <section className={styles.answer} data-state={state}>
      <p className={styles.code}>
        <data value={code}>{code}</data>
      </p>
      <h2 className={styles.verdict}>
        <span aria-hidden="true">{signs[state]} </span>
        <Verdict found={found} />
      </h2>
      <p>{(state === 'unknown' ? meaningUnknown : undefined) ?? words[state]}</p>
      {found !== undefined && <WhichRecord found={found} />}
      {found?.test.closing !== undefined && <p>{words.because(found.test.closing.reason)}</p>}
      {successor !== undefined && <p>{words.replacedBy(successor)}</p>}
    </section>
  )
}

function Verdict({ found }: { found: CodedRecord | undefined }) {
  const { answer } = useMessages().screens.code
  const { day } = useWords()
  if (found === undefined) return answer.unknown
  const { state, closing, at } = found.test
  return state === 'current' ? answer.current : answer[state](day(closing?.at ?? at))
}

function WhichRecord({ found: { kind, test } }: { found: CodedRecord }) {
  const { words, screens } = useMessages()
  const { calendarDay } = useWords()
  const ear = test.ear === 'both' ? screens.handout.bothEars : words.ear[test.ear]
  const what = kind === 'hearing' ? words.kind.tests : words.kind.speechTests
  const facts = [what, ear, words.condition[test.condition], calendarDay(test.performedOn)]
  return <p className={styles.which}>{facts.join(', ')}</p>
}
