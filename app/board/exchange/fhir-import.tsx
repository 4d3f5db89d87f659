'use client'

import { type ReactNode, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useSay } from '@/app/components/toast.tsx'
import styles from '@/app/exchange/exchange.module.css'
import { type Messages, useMessages } from '@/app/messages/for-exchange.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import type { NewTest } from '@/lib/board/edits/hearing.ts'
import { enterImportedTests } from '@/lib/board/edits/imported.ts'
import { enterSpeechTest, type NewSpeechTest } from '@/lib/board/edits/speech.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { latestDayAt } from '@/lib/board/visit-rules.ts'
import { type FhirImportPlan, importPlan, type Planned } from '@/lib/interchange/fhir/import-plan.ts'
import {
  type FhirReading,
  fhirLimits,
  type ReadHearing,
  type ReadSpeech,
  readBundle,
} from '@/lib/interchange/fhir/read-bundle.ts'
import { useBoard, useSingle, useTable } from '../board-context.tsx'
import { looksSwapped } from '../hearing/ears-of-import.ts'

interface FhirImportProps {
  readonly onDone: () => void
}

interface Shown {
  readonly reading: FhirReading
  readonly plan: FhirImportPlan
  /** right and left of one day look exchanged against the current tests */
  readonly earsLookSwapped: boolean
}

/** Tests from a Bundle: read, held against the board, shown, and entered by one press. */
export function FhirImport({ onDone }: FhirImportProps) {
  const { exchange, hearingImport } = useMessages()
  const { record, pen, label } = useBoard()
  const header = useSingle('header')
  const [tests, speechTests, visits] = [useTable('tests'), useTable('speechTests'), useTable('visits')]
  const say = useSay()
  const [shown, setShown] = useState<Shown>()
  const [fault, setFault] = useState<string>()
  const [isPatient, setPatient] = useState(false)
  const [earsCompared, setEarsCompared] = useState(false)

  const open = async (file: File | undefined) => {
    setShown(undefined)
    setPatient(false)
    setEarsCompared(false)
    setFault(undefined)
    if (file === undefined) return
    if (file.size > fhirLimits.characters * 2) return setFault(exchange.tooLarge(file.size, fhirLimits.characters * 2))
    const reading = readBundle(await file.text(), {
      pseudonym: header?.pseudonym ?? label,
      operatedOn: header?.operatedOn,
      today: latestDayAt(pen.now().toISOString()),
    })
    const plan = importPlan(reading, tests, speechTests)
    setShown({ reading, plan, earsLookSwapped: swappedOnADay(plan, tests) })
  }
  const fresh = shown === undefined ? [] : newIn(shown.plan)
  const enter = () => {
    if (shown === undefined) return
    const known = new Set(visits.map(({ id }) => id))
    const filed = (visit: string | undefined) => (visit !== undefined && known.has(visit) ? { visit } : {})
    const hearing = shown.plan.tests
      .filter(isNew)
      .map(({ read: { test, visit } }): NewTest => ({ ...test, ...filed(visit), origin: 'imported' }))
    enterImportedTests(record, pen, hearing, exchange.reason)
    record.transact(() => {
      for (const { read } of shown.plan.speechTests.filter(isNew)) {
        const test: NewSpeechTest = { ...read.test, ...filed(read.visit) }
        enterSpeechTest(record, pen, test, exchange.reason)
      }
    })
    say(exchange.entered(fresh.length))
    onDone()
  }
  const needsCheck =
    shown !== undefined && shown.reading.fileFaults.length === 0 && shown.reading.pseudonym === undefined
  return (
    <div className={styles.parts}>
      <Field label={exchange.choose} hint={exchange.chooseHint} error={fault}>
        {(control) => (
          <input
            {...control}
            type="file"
            accept=".json,application/json,application/fhir+json"
            onChange={(event) => void open(event.currentTarget.files?.[0])}
          />
        )}
      </Field>
      {shown !== undefined && <ReadingReport {...shown} />}
      {needsCheck && (
        <label className={styles.check}>
          <input type="checkbox" checked={isPatient} onChange={({ target }) => setPatient(target.checked)} />
          {exchange.unknownPatient}
        </label>
      )}
      {shown?.earsLookSwapped === true && (
        <label className={styles.check}>
          <input type="checkbox" checked={earsCompared} onChange={({ target }) => setEarsCompared(target.checked)} />
          {hearingImport.swappedCheck}
        </label>
      )}
      {fresh.length > 0 && (
        <div className={styles.acts}>
          <Button
            tone="accent"
            disabled={(needsCheck && !isPatient) || (shown?.earsLookSwapped === true && !earsCompared)}
            onClick={enter}
          >
            {exchange.enter(fresh.length)}
          </Button>
        </div>
      )}
    </div>
  )
}

/** The ears of one day are held against the current tests together: one ear alone tells nothing. */
function swappedOnADay({ tests }: FhirImportPlan, known: readonly HearingTest[]): boolean {
  const fresh = tests.filter(isNew).map(({ read }) => read.test)
  const days = new Set(fresh.map(({ performedOn }) => performedOn))
  return [...days].some((day) =>
    looksSwapped(
      fresh.filter(({ performedOn }) => performedOn === day),
      known,
    ),
  )
}

const isNew = ({ standing }: Planned<unknown>): boolean => standing === 'new'
const newIn = ({ tests, speechTests }: FhirImportPlan) => [...tests, ...speechTests].filter(isNew)

/** Faults in a list longer than this are counted instead; the first ones usually explain the rest. */
const faultsListed = 20

function ReadingReport({ reading, plan, earsLookSwapped }: Shown) {
  const messages = useMessages()
  const { exchange, hearingImport } = messages
  const { fileFaults, faults, passedOver } = reading
  const rows = [
    ...plan.tests.map((each) => rowOfTest(each, messages)),
    ...plan.speechTests.map((each) => rowOfSpeech(each, messages)),
  ]
  return (
    <div className={styles.parts} aria-live="polite">
      {fileFaults.map((fault) => (
        <p key={fault.code} className={styles.fault}>
          {exchange.fileFault(fault)}
        </p>
      ))}
      <OperationCompared operation={reading.operation} />
      {earsLookSwapped && <p className={styles.fault}>{hearingImport.swapped}</p>}
      {faults.length > 0 && (
        <div className={styles.fault}>
          <p>{exchange.faults(faults.length)}</p>
          <ul>
            {faults.slice(0, faultsListed).map(({ entry, resource, fault }) => (
              <li key={`${entry} ${fault.code}`}>{exchange.faultAt(entry, resource, exchange.itemFault(fault))}</li>
            ))}
          </ul>
          {faults.length > faultsListed && <p>{exchange.moreFaults(faults.length - faultsListed)}</p>}
        </div>
      )}
      {passedOver.size > 0 && (
        <p className={styles.hint}>
          {exchange.passedOver([...passedOver].map(([type, count]) => `${type} (${count})`).join(', '))}
        </p>
      )}
      {rows.length > 0 && (
        <ul className={styles.found} aria-label={exchange.found}>
          {rows}
        </ul>
      )}
      {fileFaults.length === 0 && newIn(plan).length === 0 && <p role="status">{exchange.nothingNew}</p>}
    </div>
  )
}

function OperationCompared({ operation }: { readonly operation: FhirReading['operation'] }) {
  const { exchange, words } = useMessages()
  const header = useSingle('header')
  const plan = useSingle('plan')
  const ear = plan?.ear ?? header?.ear
  const isOther =
    operation !== undefined &&
    ((operation.ear !== undefined && ear !== undefined && operation.ear !== ear) ||
      (operation.day !== undefined && header?.operatedOn !== undefined && operation.day !== header.operatedOn))
  if (!isOther) return null
  const said = (side: 'right' | 'left' | undefined, day: string | undefined) =>
    [side === undefined ? [] : words.ear[side], day === undefined ? [] : calendarDayOf(day)].flat().join(', ')
  return (
    <p className={styles.fault}>
      {exchange.operationDiffers(said(operation.ear, operation.day), said(ear, header?.operatedOn))}
    </p>
  )
}

function rowOfTest({ read, standing }: Planned<ReadHearing>, { exchange, words }: Messages) {
  const { test } = read
  const what = [words.ear[test.ear], words.condition[test.condition], exchange.tones(Object.keys(test.points).length)]
  return (
    <Row key={`test ${read.entry} ${test.ear}`} day={test.performedOn} what={what} standing={standing}>
      {read.state === 'superseded' && exchange.superseded}
    </Row>
  )
}

function rowOfSpeech({ read, standing }: Planned<ReadSpeech>, { words }: Messages) {
  const { test } = read
  const score = test.items === undefined ? `${test.receptionThreshold} dB HL` : `${test.right}/${test.items}`
  const ear = test.ear === 'both' ? [words.ear.right, words.ear.left].join(' + ') : words.ear[test.ear]
  return (
    <Row
      key={`speech ${read.entry}`}
      day={test.performedOn}
      what={[ear, words.condition[test.condition], score]}
      standing={standing}
    />
  )
}

interface RowProps extends Pick<Planned<unknown>, 'standing'> {
  readonly day: string
  readonly what: readonly string[]
  readonly children?: ReactNode
}

function Row({ day, what, standing, children }: RowProps) {
  return (
    <li>
      <span>{[calendarDayOf(day), ...what].join(' · ')}</span>
      <StandingSign standing={standing} />
      {children}
    </li>
  )
}

const toneOf = {
  new: 'good',
  same: 'quiet',
  differs: 'stop',
  'twice-in-file': 'quiet',
  'does-not-count': 'quiet',
} as const

function StandingSign({ standing }: Pick<Planned<unknown>, 'standing'>) {
  const { exchange } = useMessages()
  return <StateSign tone={toneOf[standing]}>{exchange.standing[standing]}</StateSign>
}
