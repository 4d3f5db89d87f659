'use client'

import { useMemo, useState } from 'react'
import { useBoard, useMay, useTable } from '@/app/board/board-context.tsx'
import { ReasonDialog } from '@/app/board/hearing/reason-dialog.tsx'
import { useNames } from '@/app/board/hearing/test-facts.ts'
import { SpeechForm } from '@/app/board/later-parts.ts'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { calendarDayHere } from '@/app/calendar-day.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-speech.ts'
import {
  closeSpeechTest,
  enterSpeechTest,
  type NewSpeechTest,
  reinstateSpeechTest,
  replacedBy,
  verifySpeechTest,
} from '@/lib/board/edits/speech.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { isReception, isScore, type SpeechTest } from '@/lib/board/records/speech-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { readReception } from './reception-reading.ts'
import { RolloverList } from './rollover-list.tsx'
import { readScore, rolloversIn } from './score-reading.ts'
import type { SpeechEntry } from './speech-entry.ts'
import { type SpeechAct, SpeechList, type SpeechReading } from './speech-list.tsx'
import styles from './speech-tests.module.css'
import { useSpeechSentence } from './speech-words.ts'

interface Asking {
  readonly act: SpeechAct
  readonly test: SpeechTest
}

/** The speech tests of the case: entry, list, and what each says. @param ear that a first one is likely to be of */
export function SpeechTests({ ear }: { ear: Ear }) {
  const { speech } = useMessages()
  const { record, pen } = useBoard()
  const may = useMay()
  const say = useSay()
  const nameOf = useNames()
  const speechTests = useTable('speechTests')
  const tests = useTable('tests')
  const [entering, setEntering] = useState<SpeechEntry['measured']>()
  const [asking, setAsking] = useState<Asking>()
  const readings = useMemo(
    () => inOrder(speechTests).flatMap((test) => readingOf(test, speechTests, tests)),
    [speechTests, tests],
  )
  useEntryKeys(may.mayCreate('speechTests'), setEntering)
  const enter = (test: NewSpeechTest) => {
    enterSpeechTest(record, pen, test, speech.replacedBecause(test.performedOn))
    if (test.receptionThreshold !== undefined) say(speech.enteredReception(test.receptionThreshold))
    else if (test.right !== undefined && test.items !== undefined) say(speech.entered(test.right, test.items))
  }
  return (
    <section className={styles.section} aria-label={speech.heading}>
      <header className={styles.head}>
        <h3 className={styles.heading}>{speech.heading}</h3>
        {may.mayCreate('speechTests') && entering === undefined && (
          <span className={styles.buttons}>
            <Button onClick={() => setEntering('score')}>{speech.enter}</Button>
            <Button onClick={() => setEntering('reception')}>{speech.enterReception}</Button>
          </span>
        )}
      </header>
      {entering !== undefined && (
        <SpeechForm
          key={entering}
          first={firstEntry(entering, speechTests, ear)}
          today={today()}
          replaces={(test) => replacedBy(speechTests, test).length}
          onEnter={enter}
          onClose={() => setEntering(undefined)}
        />
      )}
      {readings.length === 0 && entering === undefined && <p className={styles.none}>{speech.none}</p>}
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

const entryKeys = { score: 'l', reception: 'h' } as const

/** The keys that open the form from anywhere on the board. */
function useEntryKeys(mayEnter: boolean, setEntering: (entering: SpeechEntry['measured']) => void): void {
  const { speech } = useMessages()
  const shortcuts = useMemo<Shortcut[]>(
    () =>
      mayEnter
        ? [
            { key: entryKeys.score, does: speech.enter, act: () => setEntering('score') },
            { key: entryKeys.reception, does: speech.enterReception, act: () => setEntering('reception') },
          ]
        : [],
    [mayEnter, speech, setEntering],
  )
  useShortcuts(speech.heading, shortcuts)
}

const today = (): string => calendarDayHere(new Date())

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

const readingOf = (
  test: SpeechTest,
  speechTests: readonly SpeechTest[],
  tests: readonly HearingTest[],
): readonly SpeechReading[] => {
  if (isScore(test)) return [readScore(test, speechTests, tests)]
  return isReception(test) ? [readReception(test, tests)] : []
}

/** The setting of the last test of its sort; without one, what is most often measured. Common practice, no source. */
function firstEntry(measured: SpeechEntry['measured'], tests: readonly SpeechTest[], ear: Ear): SpeechEntry {
  const last = inOrder(tests).find((test) => isReception(test) === (measured === 'reception'))
  return {
    measured,
    ear: last?.ear ?? ear,
    condition: last?.condition ?? 'unaided',
    performedOn: today(),
    material: last?.material ?? (measured === 'score' ? 'monosyllables' : 'disyllables'),
    listName: '',
    items: String(last?.items ?? 20),
    right: '',
    speechLevel: String(last?.speechLevel ?? 65),
    noiseLevel: last?.noiseLevel === undefined ? '' : String(last.noiseLevel),
    receptionThreshold: '',
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
