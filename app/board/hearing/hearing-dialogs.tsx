'use client'

import { useBoard } from '@/app/board/board-context.tsx'
import { ImportDialog } from '@/app/board/later-parts.ts'
import { calendarDayHere } from '@/app/calendar-day.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-hearing-import.ts'
import * as edits from '@/lib/board/edits/hearing.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Annotation, ChartPlace } from '@/lib/board/records/annotation.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Rights } from '@/lib/board/rights.ts'
import type { ImportedTest } from '@/lib/interchange/audiogram-csv.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { AnnotationDialog } from './annotation-dialog.tsx'
import styles from './dialogs.module.css'
import { NewTestDialog } from './new-test-dialog.tsx'
import { ReasonDialog } from './reason-dialog.tsx'
import { inWords, useNames } from './test-facts.ts'
import { currentTest } from './tests-shown.ts'
import { VerifyDialog } from './verify-dialog.tsx'

/** Loaded when somebody imports: few people do, and everybody would wait for its parser. */
/** What is being asked of this person, if anything. */
export type Asking =
  | { readonly what: 'new-test'; readonly ear: Ear }
  | { readonly what: 'import'; readonly pasted?: string }
  | { readonly what: 'verify' | 'supersede' | 'error' | 'reinstate'; readonly test: HearingTest }
  | { readonly what: 'new-note'; readonly place: ChartPlace; readonly test: RecordId | undefined }
  | { readonly what: 'edit-note' | 'remove-note'; readonly annotation: Annotation }

interface HearingDialogsProps {
  readonly asking: Asking
  readonly tests: readonly HearingTest[]
  readonly may: Rights
  readonly onDone: () => void
  readonly onEntered: (test: RecordId) => void
}

/** The dialogs of the pane and the edits that they end in. */
export function HearingDialogs(props: HearingDialogsProps) {
  const { asking } = props
  switch (asking.what) {
    case 'new-test':
    case 'import':
      return <EntryDialogs {...props} asking={asking} />
    case 'verify':
    case 'supersede':
    case 'error':
    case 'reinstate':
      return <StateDialogs {...props} asking={asking} />
    case 'new-note':
    case 'edit-note':
    case 'remove-note':
      return <NoteDialogs {...props} asking={asking} />
    default:
      return asking satisfies never
  }
}

type Part<W extends Asking['what']> = Omit<HearingDialogsProps, 'asking'> & {
  readonly asking: Extract<Asking, { what: W }>
}

const today = (): string => calendarDayHere(new Date())

function useSentence(): (test: HearingTest) => string {
  const { audiogram } = useMessages()
  const nameOf = useNames()
  return (test) => audiogram.testSentence(inWords(test, nameOf))
}

function EntryDialogs({ asking, tests, onDone, onEntered }: Part<'new-test' | 'import'>) {
  const { record, pen } = useBoard()
  const { hearingImport } = useMessages()
  const say = useSay()
  const sentenceOf = useSentence()
  if (asking.what === 'new-test')
    return (
      <NewTestDialog
        ear={asking.ear}
        today={today()}
        currentOf={(ear, condition) => currentTest(tests, ear, condition)}
        sentenceOf={sentenceOf}
        onClose={onDone}
        onEnter={(test, reason) => {
          onEntered(edits.enterTest(record, pen, test, reason))
          onDone()
        }}
      />
    )
  const enterAll = (imported: readonly ImportedTest[], reason: string) => {
    record.transact(() => {
      for (const test of imported) {
        const why = reason === '' ? hearingImport.reasonSuggestion(test.performedOn) : reason
        onEntered(edits.enterTest(record, pen, { ...test, origin: 'imported', note: '' }, why))
      }
    })
    say(hearingImport.done(imported.length))
    onDone()
  }
  return (
    <ImportDialog
      tests={tests}
      today={today()}
      pasted={asking.pasted}
      sentenceOf={sentenceOf}
      onClose={onDone}
      onImport={enterAll}
    />
  )
}

function StateDialogs({ asking, onDone }: Part<'verify' | 'supersede' | 'error' | 'reinstate'>) {
  const { record, pen } = useBoard()
  const { hearing } = useMessages()
  const say = useSay()
  const sentence = useSentence()(asking.test)
  const { test, what } = asking
  const finish = (edit: () => void) => {
    edit()
    say(hearing.test.done)
    onDone()
  }
  if (what === 'verify')
    return (
      <VerifyDialog
        sentence={sentence}
        empty={Object.keys(test.points).length === 0}
        onClose={onDone}
        onVerify={() => finish(() => edits.verifyTest(record, pen, test.id))}
      />
    )
  const carryOut = (reason: string) => {
    if (what === 'reinstate') edits.reinstateTest(record, pen, test, reason)
    else edits.closeTest(record, pen, test.id, what === 'error' ? 'entered-in-error' : 'superseded', reason)
  }
  return (
    <ReasonDialog
      act={what}
      sentence={sentence}
      onClose={onDone}
      onReason={(reason) => finish(() => carryOut(reason))}
    />
  )
}

function NoteDialogs({ asking, may, onDone }: Part<'new-note' | 'edit-note' | 'remove-note'>) {
  const { record, pen } = useBoard()
  const { hearing, shell } = useMessages()
  if (asking.what === 'new-note')
    return (
      <AnnotationDialog
        place={asking.place}
        text=""
        mayPlace
        mayWrite
        onClose={onDone}
        onSubmit={(place, text) => {
          edits.annotate(record, pen, { place, text, ...(asking.test === undefined ? {} : { test: asking.test }) })
          onDone()
        }}
      />
    )
  const { annotation } = asking
  if (asking.what === 'edit-note')
    return (
      <AnnotationDialog
        place={annotation.place}
        text={annotation.text}
        mayPlace={may.mayChange('annotations', 'place', annotation)}
        mayWrite={may.mayChange('annotations', 'text', annotation)}
        onClose={onDone}
        onSubmit={(place, text) => {
          edits.changeAnnotation(record, annotation.id, { place, text })
          onDone()
        }}
      />
    )
  return (
    <Dialog open onClose={onDone} title={hearing.notes.removeTitle}>
      <p>{hearing.notes.removeText(annotation.text)}</p>
      <div className={styles.buttons}>
        <Button
          tone="stop"
          onClick={() => {
            edits.removeAnnotation(record, annotation.id)
            onDone()
          }}
        >
          {hearing.notes.remove}
        </Button>
        <Button onClick={onDone}>{shell.cancel}</Button>
      </div>
    </Dialog>
  )
}
