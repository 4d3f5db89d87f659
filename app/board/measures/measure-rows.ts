import { calendarDayOf } from '@/app/messages/moments.ts'
import type { Messages } from '@/app/messages/use-messages.ts'
import type { AverageId } from '@/lib/audiometry/averages.ts'
import type { DifferenceSetId } from '@/lib/audiometry/differences.ts'
import type { GradeScaleId } from '@/lib/audiometry/grades.ts'
import type { EarMeasures } from '@/lib/audiometry/measures.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { averageCell, betterEarCell, gainCell, gapCell, gradeCell, typeCell } from './average-rows.ts'
import type { CaseMeasures, EarExtras } from './case-measures.ts'
import type { HowLine, MeasureCell, MeasureId, MeasureRow } from './measure-row.ts'
import { ageCell, asymmetryCell, changeCell, indexCell, receptionCell, wordsCell } from './other-rows.ts'

interface EarContext {
  readonly own: EarMeasures
  readonly extras: EarExtras
  readonly messages: Messages
}

type CellOf = (context: EarContext) => MeasureCell | undefined

const air =
  (id: AverageId): CellOf =>
  ({ own, messages }) =>
    averageCell(
      own.airAverages.find(({ convention }) => convention.id === id),
      messages.measures,
    )

const bone =
  (id: AverageId): CellOf =>
  ({ own, messages }) =>
    averageCell(
      own.boneAverages.find(({ convention }) => convention.id === id),
      messages.measures,
    )

const gap =
  (id: DifferenceSetId): CellOf =>
  ({ own, messages }) =>
    gapCell(
      own.meanGaps.find(({ set }) => set === id),
      messages.measures,
    )

const grade =
  (id: GradeScaleId): CellOf =>
  ({ own, messages }) =>
    gradeCell(
      own.grades.find(({ scale }) => scale.id === id),
      messages.measures,
    )

/** Everything that is computed of one ear, by every convention. */
const earRows: readonly (readonly [MeasureId, CellOf])[] = [
  ['air-who', air('pta4-who')],
  ['air-biap', air('pta4-biap')],
  ['air-asha', air('pta3')],
  ['air-aao', air('pta4-aao')],
  ['grade-who', grade('who-2021')],
  ['grade-biap', grade('biap')],
  ['grade-asha', grade('clark')],
  ['bone-who', bone('pta4-who')],
  ['bone-asha', bone('pta3')],
  ['bone-aao', bone('pta4-aao')],
  ['gap-who', gap('pta4-who')],
  ['gap-asha', gap('pta3')],
  ['gap-aao', gap('pta4-aao')],
  [
    'type',
    ({ own, messages }) =>
      typeCell(
        own.types.find(({ criteria }) => criteria.id === 'set-1'),
        messages.measures,
      ),
  ],
  ['high', air('band-high')],
  ['age', ({ own, messages }) => ageCell(own.innerEarForAge, messages.measures)],
  ['reception-unaided', ({ extras, messages }) => receptionCell(extras.unaidedReception, messages.measures)],
  ['reception-aided', ({ extras, messages }) => receptionCell(extras.aidedReception, messages.measures)],
  ['words-unaided', ({ extras, messages }) => wordsCell(extras.unaidedWords, messages.measures)],
  ['words-aided', ({ extras, messages }) => wordsCell(extras.aidedWords, messages.measures)],
  ['index-unaided', ({ extras, messages }) => indexCell(extras.unaidedIndex, messages.measures)],
  ['index-aided', ({ extras, messages }) => indexCell(extras.aidedIndex, messages.measures)],
  [
    'functional-gain',
    ({ extras, messages }) =>
      gainCell(
        extras.functionalGain,
        daysOf([extras.records['sound-field'], extras.records.aided], messages),
        messages.measures,
      ),
  ],
  [
    'effective-gain',
    ({ extras, messages }) =>
      gainCell(
        extras.effectiveGain,
        daysOf([extras.records.unaided, extras.records.aided], messages),
        messages.measures,
      ),
  ],
  [
    'air-change',
    ({ extras, messages }) => changeCell(extras.comparison?.airThresholds, extras.previous, messages.measures),
  ],
  [
    'bone-change',
    ({ extras, messages }) => changeCell(extras.comparison?.boneThresholds, extras.previous, messages.measures),
  ],
]

function daysOf(tests: readonly (HearingTest | undefined)[], { measures, words }: Messages): readonly HowLine[] {
  const named = tests
    .filter((test) => test !== undefined)
    .map(({ condition, performedOn }) => measures.testOf(words.condition[condition], calendarDayOf(performedOn)))
  return [{ name: measures.howWords.tests, text: named.join('; ') }]
}

/** The rows that have something to say of at least one ear, then those of both ears together. */
export function measureRows({ measures, ears, bothCount }: CaseMeasures, messages: Messages): readonly MeasureRow[] {
  const context = (ear: Ear): EarContext => ({ own: measures[ear], extras: ears[ear], messages })
  const right = context('right')
  const left = context('left')
  const rows = earRows.flatMap(([id, cellOf]): readonly MeasureRow[] => {
    const cells = { right: cellOf(right), left: cellOf(left) }
    if (cells.right === undefined && cells.left === undefined) return []
    return [
      { id, convention: conventionOf(id, measures[cells.right ? 'right' : 'left'], messages), kind: 'ears', cells },
    ]
  })
  return bothCount ? [...rows, ...caseRows(measures, messages)] : rows
}

function caseRows({ who, asymmetries }: CaseMeasures['measures'], { measures }: Messages): readonly MeasureRow[] {
  const better = betterEarCell(who, measures)
  if (better === undefined) return []
  return [
    { id: 'better-ear', convention: measures.conventions['better-ear'], kind: 'case', cell: better },
    {
      id: 'asymmetry',
      convention: measures.conventions.asymmetry,
      kind: 'case',
      cell: asymmetryCell(asymmetries, measures),
    },
  ]
}

function conventionOf(id: MeasureId, { innerEarForAge }: EarMeasures, { measures }: Messages): string {
  if (id === 'age') return measures.ageConvention(innerEarForAge?.group.edition ?? '')
  return id === 'air-change' || id === 'bone-change' ? measures.changeConvention : measures.conventions[id]
}
