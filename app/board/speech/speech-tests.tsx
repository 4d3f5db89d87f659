'use client'

import { useMemo, useState } from 'react'
import { useBoard, useMay, useTable } from '@/app/board/board-context.tsx'
import { ReasonDialog } from '@/app/board/hearing/reason-dialog.tsx'
import { dayOf, useNames } from '@/app/board/hearing/test-facts.ts'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import {
  closeSpeechTest,
  enterSpeechTest,
  type NewSpeechTest,
  reinstateSpeechTest,
  replacedBy,
  verifySpeechTest,
} from '@/lib/board/edits/speech.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { RolloverList } from './rollover-list.tsx'
import { readScore, rolloversIn } from './score-reading.ts'
import type { SpeechEntry } from './speech-entry.ts'
import { SpeechForm } from './speech-form.tsx'
import { type SpeechAct, SpeechList } from './speech-list.tsx'
import styles from './speech-tests.module.css'
import { useSpeechSentence } from './speech-words.ts'

interface Asking {
  readonly act: SpeechAct
  readonly test: SpeechTest
}

/** The word scores of the case: entry, list, and what each says. @param ear that a first score is likely to be of */
export function SpeechTests({ ear }: { ear: Ear }) {
  const { speech } = useMessages()
  const { record, pen } = useBoard()
  const may = useMay()
  const say = useSay()
  const nameOf = useNames()
  const speechTests = useTable('speechTests')
  const tests = useTable('tests')
  const [entering, setEntering] = useState(false)
  const [asking, setAsking] = useState<Asking>()
  const readings = useMemo(
    () => inOrder(speechTests).map((test) => readScore(test, speechTests, tests)),
    [speechTests, tests],
  )
  useEntryKey(may.mayCreate('speechTests'), setEntering)
  const enter = (test: NewSpeechTest) => {
    enterSpeechTest(record, pen, test, speech.replacedBecause(test.performedOn))
    say(speech.entered(test.right, test.items))
  }
  return (
    <section className={styles.section} aria-label={speech.heading}>
      <header className={styles.head}>
        <h3 className={styles.heading}>{speech.heading}</h3>
        {may.mayCreate('speechTests') && !entering && <Button onClick={() => setEntering(true)}>{speech.enter}</Button>}
      </header>
      {entering && (
        <SpeechForm
          first={firstEntry(inOrder(speechTests)[0], ear)}
          today={today()}
          replaces={(test) => replacedBy(speechTests, test).length}
          onEnter={enter}
          onClose={() => setEntering(false)}
        />
      )}
      {readings.length === 0 && !entering && <p className={styles.none}>{speech.none}</p>}
      <RolloverList rollovers={useMemo(() => rolloversIn(speechTests), [speechTests])} />
      <SpeechList
        readings={readings}
        may={may}
        nameOf={nameOf}
        onAct={(act, test) => {
          if (act === 'reinstate') reinstateSpeechTest(record, test.id)
          else setAsking({ act, test })
        }}
      />
      <Asked asking={asking} onDone={() => setAsking(undefined)} />
    </section>
  )
}

const entryKey = 'l'

/** The key that opens the form from anywhere on the board. */
function useEntryKey(mayEnter: boolean, setEntering: (entering: boolean) => void): void {
  const { speech } = useMessages()
  const shortcuts = useMemo<Shortcut[]>(
    () => (mayEnter ? [{ key: entryKey, does: speech.enter, act: () => setEntering(true) }] : []),
    [mayEnter, speech, setEntering],
  )
  useShortcuts(speech.heading, shortcuts)
}

const today = (): string => dayOf(new Date().toISOString())

/** Current scores first, then the latest day; the same order for everyone. */
function inOrder(tests: readonly SpeechTest[]): readonly SpeechTest[] {
  const rank = ({ state }: SpeechTest) => Number(state !== 'current')
  return tests.toSorted(
    (a, b) =>
      rank(a) - rank(b) ||
      b.performedOn.localeCompare(a.performedOn) ||
      b.at.localeCompare(a.at) ||
      a.id.localeCompare(b.id),
  )
}

/** The setting of the last score; without one, what is most often measured. Common practice, no source. */
function firstEntry(last: SpeechTest | undefined, ear: Ear): SpeechEntry {
  return {
    ear: last?.ear ?? ear,
    condition: last?.condition ?? 'unaided',
    performedOn: today(),
    material: last?.material ?? 'monosyllables',
    listName: '',
    items: String(last?.items ?? 20),
    right: '',
    speechLevel: String(last?.speechLevel ?? 65),
    noiseLevel: last?.noiseLevel === undefined ? '' : String(last.noiseLevel),
    note: '',
  }
}

/** What has to be confirmed or needs a reason. */
function Asked({ asking, onDone }: { asking: Asking | undefined; onDone: () => void }) {
  const { speech, shell } = useMessages()
  const { record, pen } = useBoard()
  const say = useSay()
  const sentenceOf = useSpeechSentence()
  if (asking === undefined) return null
  const { act, test } = asking
  const finish = (edit: () => void) => {
    edit()
    say(speech.done)
    onDone()
  }
  if (act === 'verify')
    return (
      <Dialog open onClose={onDone} title={speech.verifyTitle}>
        <p className={styles.subject}>{sentenceOf(test)}</p>
        <p>{speech.verifyText}</p>
        <div className={styles.buttons}>
          <Button tone="accent" onClick={() => finish(() => verifySpeechTest(record, pen, test.id))}>
            {speech.acts.verify}
          </Button>
          <Button onClick={onDone}>{shell.cancel}</Button>
        </div>
      </Dialog>
    )
  return (
    <ReasonDialog
      act={act}
      sentence={sentenceOf(test)}
      onClose={onDone}
      onReason={(reason) =>
        finish(() => closeSpeechTest(record, pen, test.id, act === 'error' ? 'entered-in-error' : 'superseded', reason))
      }
    />
  )
}
