import type { Thread } from '@/lib/board/edits/floor.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import { byRank } from '@/lib/board/reading.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import { type HearingTest, TestCondition } from '@/lib/board/records/hearing-test.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { Note } from '@/lib/board/records/note.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import type { Picture } from '@/lib/board/records/picture.ts'
import type { Anchor } from '@/lib/board/records/question.ts'
import type { ForecastRecord, ScenarioRecord } from '@/lib/board/records/sealed-record.ts'
import type { Vote } from '@/lib/board/records/vote.ts'
import type { DeviceOption } from '@/lib/devices/classes.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { type CourseOfSteps, courseOfSteps } from './course-of-steps.ts'

/** What the main screen reads of the case. */
export interface ScreenRecords {
  readonly showing: Showing
  readonly tests: readonly HearingTest[]
  readonly notes: readonly Note[]
  readonly contingencies: readonly Contingency[]
  readonly steps: readonly OperativeStep[]
  readonly threads: readonly Thread[]
  readonly votes: readonly Vote[]
  readonly pictures: readonly Picture[]
  readonly scenarios: readonly ScenarioRecord[]
  readonly forecasts: readonly ForecastRecord[]
}

/** One ear on the screen: a chosen test, or the current ones of every condition. */
export interface EarOnScreen {
  readonly ear: Ear
  readonly tests: readonly HearingTest[]
}

/** What a question is about, with the record it points to. */
export type AnchorOnScreen =
  | { readonly kind: 'chart'; readonly place: ChartPlace; readonly tests: readonly HearingTest[] }
  | { readonly kind: 'note'; readonly note: Note }
  | { readonly kind: 'step'; readonly step: OperativeStep; readonly number: number }
  | { readonly kind: 'option'; readonly option: DeviceOption }
  | { readonly kind: 'scenario'; readonly scenario: ScenarioRecord }

export type ScreenContent =
  | { readonly kind: 'nothing'; readonly course: CourseOfSteps }
  | { readonly kind: 'gone' }
  | { readonly kind: 'audiogram'; readonly ears: readonly EarOnScreen[] }
  | { readonly kind: 'question'; readonly thread: Thread; readonly anchor?: AnchorOnScreen }
  | { readonly kind: 'note'; readonly note: Note }
  | { readonly kind: 'contingency'; readonly contingency: Contingency }
  | { readonly kind: 'forecast' }
  | { readonly kind: 'options' }
  | { readonly kind: 'scenario'; readonly scenario: ScenarioRecord; readonly superseded: boolean }
  | {
      readonly kind: 'sealed-forecast'
      readonly forecast: ForecastRecord
      /** the scenario under which it holds */
      readonly scenario?: ScenarioRecord | undefined
      readonly followed: boolean
    }
  | { readonly kind: 'steps'; readonly course: CourseOfSteps }
  | { readonly kind: 'sync-mark' }
  | { readonly kind: 'vote'; readonly vote: Vote }
  | { readonly kind: 'picture'; readonly picture: Picture }

const gone = { kind: 'gone' } as const

/** Looks up what the moderator put on the screen; `gone` when that record is no longer there. */
export function screenContent(records: ScreenRecords): ScreenContent {
  const { showing } = records
  switch (showing.kind) {
    case 'nothing':
      return { kind: 'nothing', course: courseOfSteps(records.steps) }
    case 'audiogram':
      return audiogramOnScreen(records.tests, showing)
    case 'question':
      return questionOnScreen(records, showing.id)
    case 'note': {
      const note = records.notes.find(({ id }) => id === showing.id)
      return note === undefined ? gone : { kind: 'note', note }
    }
    case 'contingency': {
      const contingency = records.contingencies.find(({ id }) => id === showing.id)
      return contingency === undefined ? gone : { kind: 'contingency', contingency }
    }
    case 'forecast':
    case 'options':
    case 'sync-mark':
      return { kind: showing.kind }
    case 'scenario': {
      const scenario = records.scenarios.find(({ id }) => id === showing.id)
      const superseded = records.scenarios.some(({ supersedes }) => supersedes === showing.id)
      return scenario === undefined ? gone : { kind: 'scenario', scenario, superseded }
    }
    case 'sealed-forecast':
      return sealedOnScreen(records, showing.id)
    case 'vote': {
      const vote = records.votes.find(({ id }) => id === showing.id)
      return vote === undefined ? gone : { kind: 'vote', vote }
    }
    case 'picture': {
      const picture = records.pictures.find(({ id }) => id === showing.id)
      return picture === undefined ? gone : { kind: 'picture', picture }
    }
    case 'steps':
      return { kind: 'steps', course: courseOfSteps(records.steps) }
    default:
      return showing satisfies never
  }
}

function sealedOnScreen({ forecasts, scenarios }: ScreenRecords, id: RecordId): ScreenContent {
  const forecast = forecasts.find((sealed) => sealed.id === id)
  if (forecast === undefined) return gone
  const scenario = scenarios.find((frozen) => frozen.id === forecast.scenario)
  return { kind: 'sealed-forecast', forecast, scenario, followed: forecasts.some(({ follows }) => follows === id) }
}

/** Identity of what is shown: while it stays the same the screen changes in place, otherwise it fades over. */
export function screenKey(showing: Showing): string {
  if (showing.kind === 'audiogram') return `audiogram ${showing.ear} ${showing.test ?? 'current'}`
  return 'id' in showing ? `${showing.kind} ${showing.id}` : showing.kind
}

function audiogramOnScreen(
  tests: readonly HearingTest[],
  showing: Extract<Showing, { kind: 'audiogram' }>,
): ScreenContent {
  const chosen = showing.test === undefined ? undefined : tests.find(({ id }) => id === showing.test)
  if (showing.test !== undefined && chosen === undefined) return gone
  const ears: readonly Ear[] = showing.ear === 'both' ? ['right', 'left'] : [chosen?.ear ?? showing.ear]
  return {
    kind: 'audiogram',
    ears: ears.map((ear) => ({ ear, tests: chosen?.ear === ear ? [chosen] : currentTestsOf(tests, ear) })),
  }
}

/** The current tests of an ear, earphones before loudspeaker before device. */
export function currentTestsOf(tests: readonly HearingTest[], ear: Ear): readonly HearingTest[] {
  const order = TestCondition.options
  return tests
    .filter((test) => test.ear === ear && test.state === 'current')
    .sort((a, b) => order.indexOf(a.condition) - order.indexOf(b.condition))
}

/** A question that was folded into another is shown as that one. */
function questionOnScreen(records: ScreenRecords, id: RecordId): ScreenContent {
  const thread = records.threads.find(
    ({ question, folded }) => question.id === id || folded.some((other) => other.id === id),
  )
  if (thread === undefined) return gone
  const anchor = thread.question.anchor === undefined ? undefined : anchorOnScreen(records, thread.question.anchor)
  return anchor === undefined ? { kind: 'question', thread } : { kind: 'question', thread, anchor }
}

/** undefined when what the question points to has been removed; the question stands without it. */
export function anchorOnScreen(
  { tests, notes, steps, scenarios }: Pick<ScreenRecords, 'tests' | 'notes' | 'steps' | 'scenarios'>,
  anchor: Anchor,
): AnchorOnScreen | undefined {
  if (anchor.kind === 'chart')
    return { kind: 'chart', place: anchor.place, tests: currentTestsOf(tests, anchor.place.ear) }
  if (anchor.kind === 'note') {
    const note = notes.find(({ id }) => id === anchor.id)
    return note && { kind: 'note', note }
  }
  if (anchor.kind === 'option') return anchor
  if (anchor.kind === 'scenario') {
    const scenario = scenarios.find(({ id }) => id === anchor.id)
    return scenario && { kind: 'scenario', scenario }
  }
  const ordered = steps.toSorted(byRank)
  const index = ordered.findIndex(({ id }) => id === anchor.id)
  const step = ordered[index]
  return step && { kind: 'step', step, number: index + 1 }
}
