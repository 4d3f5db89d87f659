'use client'

import { useId, useMemo } from 'react'
import { AudiogramChart } from '@/app/audiogram/audiogram-chart.tsx'
import { layerOf } from '@/app/audiogram/layers.ts'
import { useMessages } from '@/app/messages/for-screens.ts'
import { useWords } from '@/app/screen/use-words.ts'
import type { Annotation } from '@/lib/board/records/annotation.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { recordCode } from '@/lib/interchange/record-code.ts'
import { CrossedOut } from './crossed-out.tsx'
import { useNameOf } from './names.ts'
import { TestFacts } from './test-facts.tsx'
import styles from './test-sheet.module.css'
import { ThresholdTable } from './threshold-table.tsx'

interface TestSheetProps {
  readonly test: HearingTest
  /** all tests, to name the one that took this one's place */
  readonly tests: readonly HearingTest[]
  readonly annotations: readonly Annotation[]
}

/** Height of the axis text on paper in CSS pixels (96 to the inch): 8 pt. */
const paperChartText = 11

/** One hearing test on paper: drawn, in numbers, with its code, its state and who answers for it. */
export function TestSheet({ test, tests, annotations }: TestSheetProps) {
  const { words } = useMessages()
  const tableId = useId()
  const pins = useMemo(() => pinsOf(test, annotations), [test, annotations])
  const layers = useMemo(() => [layerOf(test)], [test])
  const name = `${words.ear[test.ear]}, ${words.condition[test.condition].toLowerCase()}`
  return (
    <section className={styles.test} data-state={test.state}>
      <SheetLine test={test} name={name} />
      <Closed test={test} tests={tests} />
      <div className={styles.body}>
        <AudiogramChart label={name} describedBy={tableId} layers={layers} notes={pins} textSize={paperChartText} />
        <TestFacts test={test} />
      </div>
      <ThresholdTable id={tableId} test={test} />
      <ol className={styles.pins}>
        {pins.map(({ id, number, text }) => (
          <li key={id} value={number}>
            {text}
          </li>
        ))}
      </ol>
      {test.state !== 'current' && <CrossedOut />}
    </section>
  )
}

/** Pins and brackets about this test, numbered as on its chart. */
const pinsOf = (test: HearingTest, annotations: readonly Annotation[]) =>
  annotations
    .filter((annotation) => annotation.test === test.id)
    .toSorted((a, b) => a.at.localeCompare(b.at))
    .map(({ id, place, text }, index) => ({ id, place, text, number: index + 1 }))

function SheetLine({ test, name }: { test: HearingTest; name: string }) {
  const { handout } = useMessages().screens
  return (
    <header className={styles.head} data-ear={test.ear}>
      <h3 className={styles.name}>{name}</h3>
      <p className={styles.code}>
        <span className={styles.codeLabel}>{handout.recordCode}</span>
        <data value={recordCode(test)}>{recordCode(test)}</data>
      </p>
    </header>
  )
}

/** Why a test is not current, before anything else can be read of it. */
function Closed({ test: { state, closing }, tests }: Pick<TestSheetProps, 'test' | 'tests'>) {
  const { handout } = useMessages().screens
  const { moment } = useWords()
  const nameOf = useNameOf()
  if (state === 'current' || closing === undefined) return null
  const successor = tests.find(({ id }) => id === closing.supersededBy)
  const sentence = state === 'superseded' ? handout.supersededOn : handout.enteredInErrorOn
  return (
    <div className={styles.closed}>
      <p className={styles.closedState}>
        <span aria-hidden="true">✕ </span>
        {sentence(moment(closing.at), nameOf(closing.by))}
      </p>
      <p>{handout.reason(closing.reason)}</p>
      {successor !== undefined && <p>{handout.replacedBy(recordCode(successor))}</p>}
    </div>
  )
}
