'use client'

import { useState } from 'react'
import { AudiogramTable } from '@/app/audiogram/audiogram-table.tsx'
import { useBoard, useMay, useTable } from '@/app/board/board-context.tsx'
import { NewTestDialog } from '@/app/board/hearing/new-test-dialog.tsx'
import { TestDesk } from '@/app/board/hearing/test-desk.tsx'
import { inWords, useNames } from '@/app/board/hearing/test-facts.ts'
import type { SpeechEntry } from '@/app/board/speech/speech-entry.ts'
import { SpeechForm } from '@/app/board/speech/speech-form.tsx'
import { calendarDayHere } from '@/app/calendar-day.ts'
import { AddChoice } from '@/app/components/add-choice.tsx'
import { Button } from '@/app/components/button.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { currentTests, enterTest } from '@/lib/board/edits/hearing.ts'
import { enterSpeechTest, replacedBy } from '@/lib/board/edits/speech.ts'
import { fileTest } from '@/lib/board/edits/visits.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { isReception, isScore, type SpeechTest } from '@/lib/board/records/speech-test.ts'
import type { HeldVisit } from '@/lib/board/records/visit.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import type { FollowUp } from './use-follow-up.ts'
import styles from './visit-tests.module.css'

interface VisitTestsProps {
  readonly facts: FollowUp
  readonly visit: HeldVisit
}

type Entering = 'test' | 'speech' | undefined

/** The hearing and speech tests of a visit: new ones are entered here, others made since the operation are taken in. */
export function VisitTests({ facts, visit }: VisitTestsProps) {
  const { followUp } = useMessages()
  const { record, pen } = useBoard()
  const may = useMay()
  const speechTests = useTable('speechTests')
  const [entering, setEntering] = useState<Entering>()
  const [open, setOpen] = useState<RecordId>()
  const words = followUp.tests
  const own = facts.tests.filter((test) => test.visit === visit.id && test.state !== 'entered-in-error')
  const spoken = speechTests.filter((test) => test.visit === visit.id && test.state !== 'entered-in-error')
  const today = calendarDayHere(new Date())
  return (
    <Pane
      title={words.title}
      actions={
        may.mayCreate('tests') && (
          <>
            <Button onClick={() => setEntering('test')}>{words.enter}</Button>
            <Button onClick={() => setEntering('speech')}>{words.enterSpeech}</Button>
          </>
        )
      }
    >
      {own.length + spoken.length === 0 && <p>{words.none}</p>}
      <ul className={styles.list}>
        {own.toSorted(byDay).map((test) => (
          <TestRow key={test.id} test={test} isOpen={open === test.id} onOpen={setOpen} />
        ))}
        {spoken.toSorted(byDay).map((test) => (
          <SpeechRow key={test.id} test={test} />
        ))}
      </ul>
      {entering === 'speech' && (
        <SpeechForm
          first={firstSpeech(facts.ear, visit.held.on)}
          today={today}
          replaces={(test) => replacedBy(speechTests, test).length}
          onEnter={(test) => enterSpeechTest(record, pen, { ...test, visit: visit.id }, words.reason)}
          onClose={() => setEntering(undefined)}
        />
      )}
      {entering === 'test' && (
        <NewVisitTest
          facts={facts}
          visit={visit}
          today={today}
          onClose={() => setEntering(undefined)}
          onEntered={(id) => {
            setEntering(undefined)
            setOpen(id)
          }}
        />
      )}
      <TakeIn facts={facts} visit={visit} speechTests={speechTests} />
    </Pane>
  )
}

const byDay = (a: HearingTest | SpeechTest, b: HearingTest | SpeechTest): number =>
  a.ear.localeCompare(b.ear) || a.condition.localeCompare(b.condition) || a.at.localeCompare(b.at)

interface NewVisitTestProps extends VisitTestsProps {
  readonly today: string
  readonly onClose: () => void
  readonly onEntered: (id: RecordId) => void
}

function NewVisitTest({ facts, visit, today, onClose, onEntered }: NewVisitTestProps) {
  const { followUp, audiogram } = useMessages()
  const { record, pen } = useBoard()
  const nameOf = useNames()
  return (
    <NewTestDialog
      ear={facts.ear}
      today={today}
      initial={{ condition: 'aided', performedOn: visit.held.on, reason: followUp.tests.reason }}
      currentOf={(ear, condition) => currentTests(record, { ear, condition })[0]}
      sentenceOf={(test) => audiogram.testSentence(inWords(test, nameOf))}
      onClose={onClose}
      onEnter={(test, reason) => onEntered(enterTest(record, pen, { ...test, visit: visit.id }, reason))}
    />
  )
}

interface TestRowProps {
  readonly test: HearingTest
  readonly isOpen: boolean
  readonly onOpen: (id: RecordId | undefined) => void
}

function TestRow({ test, isOpen, onOpen }: TestRowProps) {
  const { followUp, audiogram } = useMessages()
  const { record } = useBoard()
  const may = useMay()
  const nameOf = useNames()
  const sentence = audiogram.testDetails(inWords(test, nameOf))
  const mayEnter = may.mayChange('tests', 'points', test) && test.verification === undefined
  const { tests: words } = followUp
  const say = useSay()
  return (
    <li className={styles.test}>
      <div className={styles.head}>
        <span className={styles.name}>{sentence}</span>
        {mayEnter && (
          <Button tone="quiet" aria-expanded={isOpen} onClick={() => onOpen(isOpen ? undefined : test.id)}>
            {isOpen ? words.close : words.open}
          </Button>
        )}
        {may.mayChange('tests', 'visit', test) && (
          <Button
            tone="quiet"
            aria-label={words.takeOut(sentence)}
            onClick={() => fileTest(record, 'tests', test.id, undefined)}
          >
            ✕
          </Button>
        )}
      </div>
      {isOpen && mayEnter ? (
        <TestDesk test={test} extended={false} onTable={() => say(words.tableOnBoard)} />
      ) : (
        <AudiogramTable id={`visit-test-${test.id}`} what={sentence} test={test} />
      )}
    </li>
  )
}

function SpeechRow({ test }: { readonly test: SpeechTest }) {
  const { followUp } = useMessages()
  const { record } = useBoard()
  const may = useMay()
  const sentence = useSpeechSentence()(test)
  return (
    <li className={styles.test}>
      <div className={styles.head}>
        <span className={styles.name}>{sentence}</span>
        {may.mayChange('speechTests', 'visit', test) && (
          <Button
            tone="quiet"
            aria-label={followUp.tests.takeOut(sentence)}
            onClick={() => fileTest(record, 'speechTests', test.id, undefined)}
          >
            ✕
          </Button>
        )}
      </div>
    </li>
  )
}

function useSpeechSentence(): (test: SpeechTest) => string {
  const { followUp, words } = useMessages()
  const { tests } = followUp
  return (test) => {
    const ear = test.ear === 'both' ? tests.both : words.ear[test.ear]
    const condition = `${words.condition[test.condition].toLowerCase()}, ${words.speechMaterial[test.material].toLowerCase()}`
    const result = isScore(test)
      ? tests.score(test.right, test.items, test.speechLevel, test.noiseLevel)
      : isReception(test)
        ? tests.reception(test.receptionThreshold)
        : ''
    return tests.speech(ear, condition, result)
  }
}

interface TakeInProps extends VisitTestsProps {
  readonly speechTests: readonly SpeechTest[]
}

/** Tests made since the operation that belong to no visit yet. */
function TakeIn({ facts, visit, speechTests }: TakeInProps) {
  const { followUp, audiogram } = useMessages()
  const { record } = useBoard()
  const may = useMay()
  const nameOf = useNames()
  const spokenOf = useSpeechSentence()
  const since = ({ visit: filed, performedOn, state }: HearingTest | SpeechTest) =>
    filed === undefined && state !== 'entered-in-error' && performedOn >= (facts.operatedOn ?? '')
  const loose = [
    ...facts.tests
      .filter(since)
      .map((test) => ({ kind: 'tests' as const, id: test.id, name: audiogram.testDetails(inWords(test, nameOf)) })),
    ...speechTests
      .filter(since)
      .map((test) => ({ kind: 'speechTests' as const, id: test.id, name: `${spokenOf(test)}, ${test.performedOn}` })),
  ]
  if (loose.length === 0 || !may.mayCreate('visits')) return null
  return (
    <AddChoice
      label={followUp.tests.file}
      prompt={followUp.tests.chooseTest}
      add={followUp.tests.takeIn}
      options={loose.map(({ kind, id, name }) => [`${kind}/${id}`, name])}
      onAdd={(value) => {
        const test = loose.find(({ kind, id }) => `${kind}/${id}` === value)
        if (test !== undefined) fileTest(record, test.kind, test.id, visit.id)
      }}
    />
  )
}

/** A list of twenty words in quiet at 65 dB SPL with the device. Common practice, no source. */
const firstSpeech = (ear: Ear, performedOn: string): SpeechEntry => ({
  measured: 'score',
  ear,
  condition: 'aided',
  performedOn,
  material: 'monosyllables',
  listName: '',
  items: '20',
  right: '',
  speechLevel: '65',
  noiseLevel: '',
  receptionThreshold: '',
  note: '',
})
