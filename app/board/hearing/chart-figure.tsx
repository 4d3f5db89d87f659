'use client'

import { type KeyboardEvent, useId, useMemo } from 'react'
import { AudiogramChart } from '@/app/audiogram/audiogram-chart.tsx'
import { AudiogramTable } from '@/app/audiogram/audiogram-table.tsx'
import type { ChartFinding } from '@/app/audiogram/chart-findings.tsx'
import type { LevelBand } from '@/app/audiogram/chart-intervals.tsx'
import { layerOf } from '@/app/audiogram/layers.ts'
import type { ChartAnchor, ChartNote } from '@/app/audiogram/notes.ts'
import type { ChartPointing } from '@/app/audiogram/pointing.ts'
import { TestLine } from '@/app/audiogram/test-line.tsx'
import { offerPick, useChartPick } from '@/app/board/chart-pick.ts'
import { EntryBar } from '@/app/board/later-parts.ts'
import { usePutOnScreen, usePutOnScreenKey } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { ScreenIcon } from '@/app/components/icons.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Annotation, ChartPlace } from '@/lib/board/records/annotation.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import { recordCode } from '@/lib/interchange/record-code.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import type { PointChanges } from './chart-entry.ts'
import styles from './chart-figure.module.css'
import { entryFrequencies, type HearingView } from './hearing-view.ts'
import { inWords, useNames } from './test-facts.ts'
import { useChartEntry } from './use-chart-entry.ts'
import { useNoteDrag } from './use-note-drag.ts'
import { usePlacePicking } from './use-place-picking.ts'
import { useSharedPointers } from './use-shared-pointers.ts'

interface ChartFigureProps {
  readonly ears: readonly Ear[]
  readonly view: HearingView
  readonly change: (patch: Partial<HearingView>) => void
  /** the tests of these ears that the pane shows, one an ear */
  readonly shown: readonly HearingTest[]
  /** current tests in other conditions that are drawn with them */
  readonly companions: readonly HearingTest[]
  /** the test that can be entered on this chart */
  readonly entering: HearingTest | undefined
  readonly annotations: readonly { readonly annotation: Annotation; readonly number: number }[]
  readonly anchors: readonly ChartAnchor[]
  readonly mayMove: (annotation: Annotation) => boolean
  readonly onMove: (id: RecordId, place: ChartPlace) => void
  readonly onPlace: (place: ChartPlace) => void
  readonly onChanges: (changes: PointChanges) => void
  /** what is laid over the chart */
  readonly bands: readonly LevelBand[]
  readonly findings: readonly ChartFinding[]
  /** absent while presses on the chart mean something else */
  readonly onFinding: ((key: string) => void) | undefined
}

/** One audiogram with its tests named, its numbers, and everything that a pointer does on it. */
export function ChartFigure(props: ChartFigureProps) {
  const { ears, view, shown, companions, entering } = props
  const { audiogram, hearing } = useMessages()
  const nameOf = useNames()
  const tablesId = useId()
  const stage = useStage(props)
  const screen = useScreen(ears, shown, view)
  const all = useMemo(() => [...companions, ...shown], [companions, shown])
  const layers = useMemo(() => all.map((test) => layerOf(test)), [all])
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Delete' && entering !== undefined && stage.entry.last !== undefined) {
      props.onChanges(new Map([[stage.entry.last, undefined]]))
      stage.entry.forget()
      event.preventDefault()
    } else screen.onKeyDown?.(event)
  }
  const sentences = all.map((test) => audiogram.testSentence(inWords(test, nameOf)))
  return (
    <figure className={styles.figure} data-ears={ears.join(' ')}>
      <figcaption className={styles.caption}>
        <TestLines tests={shown} />
      </figcaption>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: keys act on the chart while it has the focus */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a chart that keys act on has to take the focus */}
      <div className={styles.stage} tabIndex={0} onKeyDown={onKeyDown}>
        <AudiogramChart
          label={audiogram.chartLabel(sentences)}
          describedBy={tablesId}
          layers={layers}
          extended={view.extended}
          notes={stage.notes}
          anchors={props.anchors}
          bands={props.bands}
          findings={props.findings}
          onFinding={props.onFinding}
          pointers={stage.pointers}
          highlighted={stage.highlighted}
          ghost={stage.ghost}
          onPointing={stage.onPointing}
          grabs={stage.grabs}
        />
      </div>
      {screen.put !== undefined && <ScreenButton onPut={screen.put} />}
      {companions.length > 0 && (
        <div className={styles.caption}>
          <span className={styles.also}>{hearing.alsoDrawn}</span>
          <TestLines tests={companions} />
        </div>
      )}
      {entering !== undefined && view.mode === 'plot' && (
        <EntryBar
          test={entering}
          view={view}
          last={stage.entry.last}
          change={props.change}
          onChanges={(changes) => {
            props.onChanges(changes)
            if ([...changes.values()].includes(undefined)) stage.entry.forget()
          }}
        />
      )}
      <div id={tablesId} className={styles.tables}>
        {all.map((test, index) => (
          <AudiogramTable
            key={test.id}
            id={`${tablesId}-${index}`}
            what={sentences[index] ?? ''}
            test={test}
            hidden={!view.numbers}
          />
        ))}
      </div>
    </figure>
  )
}

function TestLines({ tests }: { tests: readonly HearingTest[] }) {
  const nameOf = useNames()
  return tests.map((test) => (
    <div key={test.id} className={styles.named} data-ear={test.ear}>
      <TestLine test={inWords(test, nameOf)} code={recordCode(test)} />
    </div>
  ))
}

function ScreenButton({ onPut }: { onPut: () => void }) {
  const { hearing } = useMessages()
  return (
    <div>
      <Button tone="quiet" title={hearing.screenHint} aria-keyshortcuts="s" onClick={onPut}>
        <ScreenIcon /> {hearing.screen}
      </Button>
    </div>
  )
}

/** The main screen follows the current tests; a test that was chosen by hand is shown for itself. */
function useScreen(ears: readonly Ear[], shown: readonly HearingTest[], view: HearingView) {
  const { hearing } = useMessages()
  const say = useSay()
  const [ear, otherEar] = ears
  const test =
    otherEar === undefined && ear !== undefined && view.chosen[ear] === shown[0]?.id ? shown[0]?.id : undefined
  const showing = useMemo<Showing>(
    () => ({
      kind: 'audiogram',
      ear: otherEar === undefined && ear !== undefined ? ear : 'both',
      ...(test === undefined ? {} : { test }),
    }),
    [ear, otherEar, test],
  )
  const put = usePutOnScreen()
  const { onKeyDown } = usePutOnScreenKey(showing)
  const putAndSay =
    put &&
    (() => {
      put(showing)
      say(hearing.onScreen)
    })
  return { put: putAndSay, onKeyDown }
}

/** What the pointer does, by mode: a place asked for comes first, then entry, pins, and looking. */
function useStage(props: ChartFigureProps) {
  const { ears, view, entering, annotations } = props
  const ear = ears.length === 1 ? (ears[0] ?? view.focus) : view.focus
  const { picking, highlighted } = useChartPick()
  const shared = useSharedPointers(ear, ears)
  const brush = useMemo(
    () => ({
      route: view.route,
      masked: view.masked,
      frequencies: entryFrequencies(view.extended, view.halfOctaves),
    }),
    [view.route, view.masked, view.extended, view.halfOctaves],
  )
  const entry = useChartEntry(entering, brush, props.onChanges)
  const picked = usePlacePicking(ear, (place) => {
    if (!picking || !offerPick(place)) props.onPlace(place)
  })
  const drag = useNoteDrag({
    annotations: annotations.map(({ annotation }) => annotation),
    mayMove: props.mayMove,
    onSelect: (selectedNote) => props.change({ selectedNote }),
    onMove: props.onMove,
  })
  const plotting = !picking && view.mode === 'plot' && entering !== undefined
  const pinning = picking || view.mode === 'pin'
  const act = plotting ? entry.onPointing : pinning ? picked.onPointing : drag.onPointing
  return {
    entry,
    pointers: shared.pointers,
    ghost: plotting ? entry.ghost : undefined,
    highlighted: pinning && picked.preview !== undefined ? picked.preview : inEars(highlighted, ears),
    notes: notesOf(annotations, drag.dragged, view.selectedNote),
    grabs: plotting || pinning || drag.dragged !== undefined,
    onPointing: (pointing: ChartPointing) => {
      shared.publish(pointing)
      act(pointing)
    },
  }
}

const inEars = (place: ChartPlace | undefined, ears: readonly Ear[]): ChartPlace | undefined =>
  place !== undefined && ears.includes(place.ear) ? place : undefined

function notesOf(
  annotations: ChartFigureProps['annotations'],
  dragged: { readonly id: RecordId; readonly place: ChartPlace } | undefined,
  selected: RecordId | undefined,
): readonly ChartNote[] {
  return annotations.map(({ annotation, number }) => ({
    id: annotation.id,
    number,
    place: dragged?.id === annotation.id ? dragged.place : annotation.place,
    text: annotation.text,
    selected: annotation.id === selected,
  }))
}
