'use client'

import { useCallback, useContext, useEffect, useMemo, useState } from 'react'
import { type ChartAnchor, numbered } from '@/app/audiogram/notes.ts'
import { PeopleContext, useBoard, useMay, useSingle, useTable, useThreads } from '@/app/board/board-context.tsx'
import { highlight, useChartPick } from '@/app/board/chart-pick.ts'
import { CalmContext } from '@/app/board/frame/first-view.ts'
import { type JumpTarget, useJumps } from '@/app/board/jump.ts'
import { FindingsList, HearingDialogs, MeasuresPanel, SpeechTests, TestDesk } from '@/app/board/later-parts.ts'
import { Button } from '@/app/components/button.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { KeptTextScope } from '@/app/components/kept-text.ts'
import { Pane } from '@/app/components/pane.tsx'
import { WhenNear } from '@/app/components/when-near.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Finding } from '@/lib/audiometry/findings.ts'
import { changeAnnotation, setPoint } from '@/lib/board/edits/hearing.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Annotation, ChartPlace } from '@/lib/board/records/annotation.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { KindName } from '@/lib/board/records.ts'
import { DbHl } from '@/lib/units/levels.ts'
import { chartMarks, chartPlaceOf } from '../measures/chart-marks.ts'
import { OverlayControls } from '../measures/overlay-controls.tsx'
import { bandsFor, useCaseMeasures, useOverlays } from '../measures/use-case-measures.ts'
import type { PointChanges } from './chart-entry.ts'
import { ChartFigure } from './chart-figure.tsx'
import { ExportButton } from './export-button.tsx'
import type { Asking } from './hearing-dialogs.tsx'
import styles from './hearing-pane.module.css'
import { type ChartMode, chartsOf, firstView, type HearingView, withTest } from './hearing-view.ts'
import { NoteList } from './note-list.tsx'
import { useNames } from './test-facts.ts'
import { type TestAct, TestList } from './test-list.tsx'
import { companions, shownTest } from './tests-shown.ts'
import { ViewControls, ViewTicks } from './view-controls.tsx'

const jumpKinds: readonly KindName[] = ['tests', 'annotations']

/** Annotated audiogram of both ears, the tests behind it, their entry and what is computed from them. */
export default function HearingPane() {
  const { hearing } = useMessages()
  const { caseId } = useBoard()
  const may = useMay()
  const isCalm = useContext(CalmContext)
  const hearingCase = useHearingCase()
  const { view, change, show, tests } = hearingCase
  const [asking, setAsking] = useState<Asking>()
  const [wanted, setWanted] = useState<WantedFinding['wanted']>()
  const ask = useCallback((next: Asking) => setAsking(next), [])
  const act = useCallback((what: TestAct, test: HearingTest) => setAsking({ what, test }), [])
  const mayEnter = may.mayCreate('tests')
  const onEntered = (id: RecordId) => change((before) => ({ ...before, entered: id }))
  return (
    <Pane
      title={hearing.title}
      actions={
        mayEnter && (
          <>
            <Button onClick={() => ask({ what: 'new-test', ear: view.focus })}>{hearing.test.enter}</Button>
            <Button onClick={() => ask({ what: 'import' })}>{hearing.test.import}</Button>
          </>
        )
      }
    >
      <KeptTextScope value={caseId}>
        <div className={styles.layout} data-apart={view.ears === 'apart'}>
          <Controls hearingCase={hearingCase} />
          <Charts hearingCase={hearingCase} ask={ask} onFinding={(key) => setWanted({ key })} />
          {isCalm && hearingCase.shown.length > 0 && <MeasuresPanel of={hearingCase.measured} part="quoted" />}
          <Desk hearingCase={hearingCase} ask={ask} />
          {isCalm && <MeasuresPanel of={hearingCase.measured} part="further" />}
          {isCalm && <Findings hearingCase={hearingCase} wanted={wanted} />}
          <Notes hearingCase={hearingCase} ask={ask} />
          <section className={styles.wide} aria-label={hearing.test.heading}>
            <div className={styles.head}>
              <h3>{hearing.test.heading}</h3>
              <ExportButton tests={tests} />
            </div>
            <TestList
              tests={tests}
              shown={new Set(hearingCase.shown.map(({ id }) => id))}
              may={may}
              nameOf={useNames()}
              onShow={show}
              onAct={act}
            />
          </section>
          <div className={styles.wide}>
            {/* whoever enters scores has keys for them anywhere on the board */}
            <WhenNear isReady={isCalm} atOnce={may.mayCreate('speechTests')}>
              <SpeechTests ear={view.focus} />
            </WhenNear>
          </div>
        </div>
        {asking !== undefined && (
          <HearingDialogs
            asking={asking}
            tests={tests}
            may={may}
            onDone={() => setAsking(undefined)}
            onEntered={onEntered}
          />
        )}
      </KeptTextScope>
    </Pane>
  )
}

interface ViewState extends HearingView {
  /** a test that this person entered just now, to be shown once it is in the record */
  readonly entered: RecordId | undefined
}

/** The records of the pane and the way one person looks at them. */
function useHearingCase() {
  const tests = useTable('tests')
  const annotations = useTable('annotations')
  const threads = useThreads()
  const header = useSingle('header')
  const may = useMay()
  const [view, setView] = useState<ViewState>(() => ({
    ...firstView(header?.ear ?? 'right', matchMedia('(pointer: fine)').matches),
    entered: undefined,
  }))
  const change = useCallback((patch: Partial<ViewState> | ((before: ViewState) => ViewState)) => {
    setView((before) => (typeof patch === 'function' ? patch(before) : { ...before, ...patch }))
  }, [])
  const show = useCallback((test: HearingTest) => setView((before) => ({ ...before, ...withTest(before, test) })), [])
  useEnteredTest(view, tests, setView)
  useJumpsHere(tests, show, change)
  const shown = useMemo(
    () => (['right', 'left'] as const).flatMap((ear) => shownTest(tests, ear, view.chosen[ear]) ?? []),
    [tests, view.chosen],
  )
  const focused = shown.find(({ ear }) => ear === view.focus)
  const open = focused?.state === 'current' && focused.verification === undefined
  const mayWrite = focused !== undefined && may.mayChange('tests', 'points', focused)
  return {
    tests,
    notes: useMemo(() => numbered(annotations), [annotations]),
    anchors: useMemo(() => anchorsOf(threads), [threads]),
    measured: useCaseMeasures(tests, shown),
    view,
    change,
    show,
    shown,
    focused,
    mayWrite,
    editable: open && mayWrite,
    may,
  }
}

type HearingCase = ReturnType<typeof useHearingCase>

/** A test that was just entered comes onto the chart, ready for its numbers. */
function useEnteredTest(
  view: ViewState,
  tests: readonly HearingTest[],
  setView: (next: (before: ViewState) => ViewState) => void,
) {
  useEffect(() => {
    const test = tests.find(({ id }) => id === view.entered)
    if (test !== undefined) setView((before) => ({ ...before, ...withTest(before, test), entered: undefined }))
  }, [view.entered, tests, setView])
}

function useJumpsHere(tests: readonly HearingTest[], show: (test: HearingTest) => void, change: HearingCase['change']) {
  const go = useCallback(
    ({ kind, id }: JumpTarget) => {
      const test = tests.find((candidate) => candidate.id === id)
      if (kind === 'annotations') change({ selectedNote: id })
      else if (test !== undefined) show(test)
    },
    [tests, show, change],
  )
  useJumps(jumpKinds, go)
}

/** Open questions that point at the chart, numbered as they wait. */
function anchorsOf(threads: ReturnType<typeof useThreads>): readonly ChartAnchor[] {
  return threads
    .filter(({ question }) => question.state === 'raised' || question.state === 'called')
    .flatMap(({ question }, index) =>
      question.anchor?.kind === 'chart' ? [{ id: question.id, number: index + 1, place: question.anchor.place }] : [],
    )
}

interface PartProps {
  readonly hearingCase: HearingCase
  readonly ask: (asking: Asking) => void
}

interface WantedFinding {
  /** the finding whose mark was pressed on a chart */
  readonly wanted: { readonly key: string } | undefined
}

/** The annotations about the ear in general and about the tests shown. */
function notesFor({ notes, shown }: HearingCase): HearingCase['notes'] {
  const ids = new Set(shown.map(({ id }) => id))
  return notes.filter(({ annotation }) => annotation.test === undefined || ids.has(annotation.test))
}

function modesOf({ editable, may }: Pick<HearingCase, 'editable' | 'may'>): readonly ChartMode[] {
  return ['look', ...(editable ? (['plot'] as const) : []), ...(may.mayCreate('annotations') ? (['pin'] as const) : [])]
}

/** The chosen mode while it is open to this person and test. */
const modeOf = (hearingCase: HearingCase): ChartMode =>
  modesOf(hearingCase).includes(hearingCase.view.mode) ? hearingCase.view.mode : 'look'

function Controls({ hearingCase }: Pick<PartProps, 'hearingCase'>) {
  const { view, editable, may, change } = hearingCase
  const mode = modeOf(hearingCase)
  const shown = useMemo(() => ({ ...view, mode }), [view, mode])
  const modes = useMemo(() => modesOf({ editable, may }), [editable, may])
  return (
    <div className={styles.wide}>
      <ViewControls view={shown} modes={modes} change={change} />
    </div>
  )
}

function Charts({ hearingCase, ask, onFinding }: PartProps & { readonly onFinding: (key: string) => void }) {
  const { record } = useBoard()
  const { hearing, measures } = useMessages()
  const { picking } = useChartPick()
  const { view, change, shown, tests, anchors, may, editable, focused, measured } = hearingCase
  const overlays = useOverlays(tests, shown)
  const { sentences } = measures.findings
  const marks = useMemo(
    () => chartMarks(measured.findings ?? [], shown, sentences),
    [measured.findings, shown, sentences],
  )
  const mode = modeOf(hearingCase)
  const onChanges = (changes: PointChanges) => {
    if (focused === undefined) return
    record.transact(() => {
      for (const [key, point] of changes) setPoint(record, focused.id, key, point)
    })
  }
  return (
    <section className={styles.charts} aria-label={hearing.chart}>
      {(picking || mode === 'pin') && (
        <p className={styles.hint}>{picking ? hearing.hints.picking : hearing.hints.pin}</p>
      )}
      {tests.length === 0 && <EmptyHint title={hearing.noTest.title(view.focus)}>{hearing.noTest.text}</EmptyHint>}
      <div className={styles.figures}>
        {chartsOf(view).map((ears) => {
          const shownHere = shown.filter(({ ear }) => ears.includes(ear))
          return (
            <ChartFigure
              key={ears.join(' ')}
              ears={ears}
              view={{ ...view, mode }}
              change={change}
              shown={shownHere}
              companions={view.companions ? shownHere.flatMap((test) => companions(tests, test)) : []}
              entering={editable && focused !== undefined && ears.includes(focused.ear) ? focused : undefined}
              annotations={notesFor(hearingCase).filter(({ annotation }) => ears.includes(annotation.place.ear))}
              anchors={anchors.filter(({ place }) => ears.includes(place.ear))}
              mayMove={(annotation) => may.mayChange('annotations', 'place', annotation)}
              onMove={(id, place) => changeAnnotation(record, id, { place })}
              onPlace={(place) => may.mayCreate('annotations') && ask({ what: 'new-note', place, test: undefined })}
              onChanges={onChanges}
              bands={bandsFor(overlays, ears)}
              findings={marks.filter(({ ear }) => ears.includes(ear))}
              onFinding={mode === 'look' && !picking ? onFinding : undefined}
            />
          )
        })}
      </div>
      <div className={styles.ticks}>
        <ViewTicks view={view} change={change} />
      </div>
      {shown.length > 0 && (
        <OverlayControls overlays={overlays.overlays} chosen={overlays.chosen} onToggle={overlays.toggle} />
      )}
    </section>
  )
}

/** The grid of the test in focus, or why its numbers are closed and what to do instead. */
function Desk({ hearingCase: { focused, mayWrite, editable, view }, ask }: PartProps) {
  const { hearing } = useMessages()
  if (focused === undefined || !mayWrite) return null
  return (
    <div className={styles.wide}>
      {editable ? (
        <TestDesk test={focused} extended={view.extended} onTable={(pasted) => ask({ what: 'import', pasted })} />
      ) : (
        <p className={styles.closed}>{closedBecause(focused, hearing.test)}</p>
      )}
    </div>
  )
}

function closedBecause(
  { state }: HearingTest,
  words: { readonly closedForEditing: string; readonly notCurrent: string },
): string {
  return state === 'current' ? words.closedForEditing : words.notCurrent
}

/** What is to be looked at in the tests on the chart; choosing one shows its point there. */
function Findings({ hearingCase: { measured, shown }, wanted }: Pick<PartProps, 'hearingCase'> & WantedFinding) {
  const onShow = (finding: Finding) => highlight(chartPlaceOf(finding, shown))
  return <FindingsList findings={measured.findings} wanted={wanted} onShow={onShow} />
}

function Notes({ hearingCase, ask }: PartProps) {
  const people = useContext(PeopleContext)
  const { view, change, may } = hearingCase
  const listed = notesFor(hearingCase).map(({ annotation, number }) => ({
    annotation,
    number,
    author: people.get(annotation.author),
    mayChange: mayTouch(may, annotation),
    mayRemove: may.mayRemove('annotations', annotation),
  }))
  const middle: ChartPlace = { kind: 'pin', ear: view.focus, frequency: 1000, level: DbHl.parse(50) }
  return (
    <NoteList
      notes={listed}
      selected={view.selectedNote}
      onSelect={(selectedNote) => change({ selectedNote })}
      onAdd={may.mayCreate('annotations') ? () => ask({ what: 'new-note', place: middle, test: undefined }) : undefined}
      onEdit={(annotation) => ask({ what: 'edit-note', annotation })}
      onRemove={(annotation) => ask({ what: 'remove-note', annotation })}
    />
  )
}

const mayTouch = (may: HearingCase['may'], annotation: Annotation): boolean =>
  may.mayChange('annotations', 'place', annotation) || may.mayChange('annotations', 'text', annotation)
