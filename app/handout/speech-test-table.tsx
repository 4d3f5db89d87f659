'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import { useWords } from '@/app/screen/use-words.ts'
import { isReception, isScore, type SpeechTest } from '@/lib/board/records/speech-test.ts'
import { speechTestCode } from '@/lib/interchange/record-code.ts'
import styles from './handout-tables.module.css'

/** Speech tests, current ones first; the others struck through. */
export function SpeechTestTable({ tests }: { tests: readonly SpeechTest[] }) {
  const { speechColumns } = useMessages().screens.handout
  const isClosed = ({ state }: SpeechTest) => Number(state !== 'current')
  const sorted = tests.toSorted(
    (a, b) => isClosed(a) - isClosed(b) || b.performedOn.localeCompare(a.performedOn) || a.id.localeCompare(b.id),
  )
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">{speechColumns.test}</th>
          <th scope="col">{speechColumns.level}</th>
          <th scope="col">{speechColumns.score}</th>
          <th scope="col">{speechColumns.state}</th>
          <th scope="col">{speechColumns.code}</th>
        </tr>
      </thead>
      <tbody>
        {sorted.map((test) => (
          <SpeechRow key={test.id} test={test} />
        ))}
      </tbody>
    </table>
  )
}

function SpeechRow({ test }: { test: SpeechTest }) {
  const { words, screens } = useMessages()
  const { calendarDay, day } = useWords()
  const { handout } = screens
  const ear = test.ear === 'both' ? handout.bothEars : words.ear[test.ear]
  const material = [words.speechMaterial[test.material], test.listName].filter((part) => part !== '').join(', ')
  return (
    <tr data-state={test.state}>
      <th scope="row">
        {`${ear}, ${words.condition[test.condition].toLowerCase()}`}
        <span className={styles.second}>{`${material}; ${calendarDay(test.performedOn)}`}</span>
      </th>
      <td>
        {isScore(test)
          ? test.noiseLevel === undefined
            ? handout.inQuiet(test.speechLevel)
            : handout.inNoise(test.speechLevel, test.noiseLevel)
          : handout.reception}
      </td>
      <td className={styles.number}>
        {isScore(test) && handout.score(test.right, test.items)}
        {isReception(test) && handout.receptionLevel(test.receptionThreshold)}
      </td>
      <td>
        {words.testState[test.state]}
        {test.closing !== undefined && (
          <span className={styles.second}>{words.labelled(day(test.closing.at), test.closing.reason)}</span>
        )}
      </td>
      <td className={styles.code}>{speechTestCode(test)}</td>
    </tr>
  )
}
