'use client'

import { useMemo } from 'react'
import { type Messages, useMessages } from '@/app/messages/for-rewind.ts'
import { type ChangeableField, type Difference, differencesBetween } from '@/lib/board/differences.ts'
import type { KindName } from '@/lib/board/records.ts'
import styles from './changes-list.module.css'
import { wallClock } from './clock-words.ts'
import { recordTitle } from './record-title.ts'
import type { OpenedMoment } from './use-moment.ts'

interface ChangesListProps {
  readonly one: OpenedMoment
  readonly other: OpenedMoment
}

/** What is different between two moments, from the earlier to the later, a sentence a record. */
export function ChangesList({ one, other }: ChangesListProps) {
  const messages = useMessages()
  const { rewind } = messages
  const [from, to] = one.atMs <= other.atMs ? [one, other] : [other, one]
  const sentences = useMemo(() => sentencesOf(from, to, messages), [from, to, messages])
  const title = rewind.between(wallClock(from.atMs), wallClock(to.atMs))
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a list that scrolls is reached by the keyboard
    <section className={styles.changes} aria-label={title} tabIndex={0}>
      <h2 className={styles.title}>{title}</h2>
      {sentences.length === 0 && <p>{rewind.noChange}</p>}
      <ul className={styles.list}>
        {sentences.map(({ key, sentence }) => (
          <li key={key} dir="auto">
            {sentence}
          </li>
        ))}
      </ul>
    </section>
  )
}

interface KeyedSentence {
  readonly key: string
  readonly sentence: string
}

function sentencesOf(from: OpenedMoment, to: OpenedMoment, messages: Messages): KeyedSentence[] {
  const differences = [
    ...differencesBetween('record', from.record, to.record),
    ...differencesBetween('floor', from.floor, to.floor),
  ]
  const told = differences.filter(({ kind }) => kind !== 'backings')
  return [
    ...told.map((difference) => ({
      key: `${difference.kind}/${difference.record.id}`,
      sentence: sentenceOf(difference, messages),
    })),
    ...backingSentences(differences, messages),
  ]
}

/** Backings are many and alike: told by their number. */
function backingSentences(differences: readonly Difference[], { rewind }: Messages): KeyedSentence[] {
  return (['added', 'removed'] as const).flatMap((how) => {
    const count = differences.filter(({ kind, change }) => kind === 'backings' && change.how === how).length
    return count === 0 ? [] : [{ key: `backings ${how}`, sentence: rewind.backings[how](count) }]
  })
}

function sentenceOf({ kind, record, change }: Difference, messages: Messages): string {
  const { rewind, words } = messages
  const what = rewind.named(words.kind[kind], recordTitle(kind, record, messages))
  const inWords = (fields: readonly ChangeableField[]) => fields.map((field) => rewind.field[field]).join(', ')
  switch (change.how) {
    case 'added':
    case 'removed':
      return rewind.change[change.how](what)
    case 'changed':
      return rewind.change.changed(what, inWords(change.fields))
    case 'moved': {
      const [from, to] = [change.from, change.to].map((state) => stateInWords(kind, state, messages))
      const moved = rewind.change.moved(what, from ?? '', to ?? '')
      return change.fields.length === 0 ? moved : rewind.alsoChanged(moved, inWords(change.fields))
    }
  }
}

function stateInWords(kind: KindName, state: string, { words }: Messages): string {
  const tables: Partial<Record<KindName, Readonly<Record<string, string>>>> = {
    steps: words.stepState,
    questions: words.questionState,
    contingencies: words.contingencyState,
    visits: words.visitState,
    visitItems: words.visitItemState,
    tests: words.testState,
    speechTests: words.testState,
  }
  return (tables[kind]?.[state] ?? state).toLowerCase()
}
