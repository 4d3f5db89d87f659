import type { Thread } from '@/lib/board/edits/floor.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import { byRank } from '@/lib/board/reading.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import { type HearingTest, TestCondition } from '@/lib/board/records/hearing-test.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { Note } from '@/lib/board/records/note.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import type { Anchor } from '@/lib/board/records/question.ts'
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

export type ScreenContent =
  | { readonly kind: 'nothing'; readonly course: CourseOfSteps }
  | { readonly kind: 'gone' }
  | { readonly kind: 'audiogram'; readonly ears: readonly EarOnScreen[] }
  | { readonly kind: 'question'; readonly thread: Thread; readonly anchor?: AnchorOnScreen }
  | { readonly kind: 'note'; readonly note: Note }
  | { readonly kind: 'contingency'; readonly contingency: Contingency }
  | { readonly kind: 'forecast' }
  | { readonly kind: 'steps'; readonly course: CourseOfSteps }

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
      return { kind: 'forecast' }
    case 'steps':
      return { kind: 'steps', course: courseOfSteps(records.steps) }
    default:
      return showing satisfies never
  }
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
  { tests, notes, steps }: Pick<ScreenRecords, 'tests' | 'notes' | 'steps'>,
  anchor: Anchor,
): AnchorOnScreen | undefined {
  if (anchor.kind === 'chart')
    return { kind: 'chart', place: anchor.place, tests: currentTestsOf(tests, anchor.place.ear) }
  if (anchor.kind === 'note') {
    const note = notes.find(({ id }) => id === anchor.id)
    return note && { kind: 'note', note }
  }
  const ordered = steps.toSorted(byRank)
  const index = ordered.findIndex(({ id }) => id === anchor.id)
  const step = ordered[index]
  return step && { kind: 'step', step, number: index + 1 }
}
