import type { RecordId } from '@/lib/board/identity.ts'
import type { HearingTest, PointRoute } from '@/lib/board/records/hearing-test.ts'
import { routesOf } from '@/lib/board/records/hearing-test.ts'
import { audiometricFrequenciesHz, type Ear, type FrequencyHz } from '@/lib/units/frequencies.ts'

export type EarsShown = 'together' | 'apart' | Ear
export type ChartMode = 'look' | 'plot' | 'pin'

/** How one person looks at the hearing pane; nothing of it is shared. */
export interface HearingView {
  readonly ears: EarsShown
  /** the ear whose test the numbers, measures and entry belong to */
  readonly focus: Ear
  readonly chosen: Readonly<Partial<Record<Ear, RecordId>>>
  readonly mode: ChartMode
  readonly extended: boolean
  readonly companions: boolean
  readonly numbers: boolean
  readonly route: PointRoute
  readonly masked: boolean
  readonly halfOctaves: boolean
  readonly selectedNote: RecordId | undefined
}

export const firstView = (focus: Ear, finePointer: boolean): HearingView => ({
  ears: 'together',
  focus,
  chosen: {},
  mode: 'look',
  extended: false,
  companions: true,
  numbers: false,
  route: 'air',
  masked: false,
  halfOctaves: finePointer,
  selectedNote: undefined,
})

/** The ears of each chart, one list a chart. */
export function chartsOf({ ears }: HearingView): readonly (readonly Ear[])[] {
  if (ears === 'together') return [['right', 'left']]
  return ears === 'apart' ? [['right'], ['left']] : [[ears]]
}

/** The view after a test was chosen: its ear comes into focus and onto the chart. */
export function withTest(view: HearingView, { id, ear, condition }: HearingTest): HearingView {
  const hidden = (ear === 'right' && view.ears === 'left') || (ear === 'left' && view.ears === 'right')
  const routes: readonly PointRoute[] = routesOf[condition]
  return {
    ...view,
    focus: ear,
    chosen: { ...view.chosen, [ear]: id },
    ears: hidden ? ear : view.ears,
    route: routes.includes(view.route) ? view.route : (routes[0] ?? 'air'),
  }
}

const octaves: readonly number[] = [125, 250, 500, 1000, 2000, 4000, 8000]

/** Frequencies that can be entered: with the pointer only octaves unless asked, so that every column is wide enough. */
export function entryFrequencies(extended: boolean, halfOctaves: boolean): readonly FrequencyHz[] {
  return audiometricFrequenciesHz.filter((hz) => (hz > 8000 ? extended : halfOctaves || octaves.includes(hz)))
}
