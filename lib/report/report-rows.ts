import { meanAirBoneGap } from '../audiometry/air-bone-gap.ts'
import { type AverageId, averageConventions, pureToneAverage } from '../audiometry/averages.ts'
import type { DifferenceSetId } from '../audiometry/differences.ts'
import {
  aidedResidualGap,
  airChange,
  boneChange,
  effectiveGain,
  functionalGain,
  type GainMeasure,
  type GainResult,
  gainMeasures,
} from '../audiometry/gains.ts'
import { gapClosure, gapReporting } from '../audiometry/gap-closure.ts'
import type { Provenance } from '../audiometry/provenance.ts'
import type { Audiogram } from '../audiometry/thresholds.ts'
import type { DeviceClass } from '../devices/classes.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { type OccasionTests, routeOf } from './occasion-tests.ts'
import { absent, averageValue, binValue, levelAt, meanValue, type ReportValue } from './report-value.ts'
import { receptionLevel, scorePoints, scoreValue, speechCell, wordScoreAt65, wordScoreInQuiet } from './speech-rows.ts'

export type ReportStandard = 'aao-1995' | 'gurgel-2012' | 'implants' | 'high-frequency' | 'who-2021'

export type ReportMeasure =
  | 'air-average'
  | 'bone-average'
  | 'air-bone-gap'
  | 'gap-bin'
  | 'bone-change'
  | 'word-recognition'
  | 'scattergram-cell'
  | 'aided-average'
  | 'functional-gain'
  | 'effective-gain'
  | 'aided-residual-gap'
  | 'word-score-unaided'
  | 'word-score-aided'
  | 'reception-unaided'
  | 'reception-aided'
  | 'air-at'
  | 'bone-at'
  | 'aided-at'
  | 'high-average'

/** What a reader has to know of the inputs of a row beyond its convention. */
export type RowNote =
  | 'three-kilohertz-interpolated'
  | 'three-kilohertz-uncertain'
  | 'bone-from-before'
  | 'sound-field-from-before'
  | 'earphone-for-sound-field'
  | 'best-score-of-occasion'

/** One line of a report: a measure by one convention, before the operation, at the visit, and what changed (positive is better). */
export interface ReportRow {
  readonly measure: ReportMeasure
  readonly standard: ReportStandard
  readonly frequencies: readonly FrequencyHz[]
  readonly unit: 'dB HL' | 'dB' | '%' | ''
  readonly before?: ReportValue
  readonly after?: ReportValue
  readonly change?: ReportValue
  readonly notes: readonly RowNote[]
  readonly provenance: Provenance
}

export interface RowsInput {
  readonly before: OccasionTests
  /** absent: there is no outcome yet */
  readonly after: OccasionTests | undefined
  readonly deviceClass: DeviceClass | undefined
}

const consensus2018 = 'Maier et al., Audiol Neurotol 23:105-115, 2018'
const consensus2022 = 'Maier et al., Otol Neurotol 43:513-529, 2022'

/** The 2018 standards speak of active middle-ear implants alone. */
const implantSource = (deviceClass: DeviceClass | undefined): string =>
  deviceClass === 'active-middle-ear-implant' ? `${consensus2018}; ${consensus2022}` : consensus2022

export const highFrequencyReporting: Provenance = {
  source: 'Practice of surgical series: 4, 6 and 8 kHz; ordinary vibrators give no bone conduction above 4 kHz',
  status: 'from memory, unconfirmed',
}

/** Rows of the publication table, standard by standard. Every row is always there: what was not measured is named in it. */
export function publicationRows(input: RowsInput): readonly ReportRow[] {
  return [...surgeryRows(input), ...scattergramRows(input), ...implantRows(input), ...highFrequencyRows(input)]
}

/** Means over 0.5, 1, 2 and 4 kHz, as the forecast has them, for the page of the record. */
export function worldReportRows({ before, after }: RowsInput): readonly ReportRow[] {
  const set = 'pta4-who'
  const { frequencies, source, status } = averageConventions[set]
  const row = { standard: 'who-2021', frequencies, notes: [], provenance: { source, status } } as const
  const gap = (of: OccasionTests) => meanValue(meanAirBoneGap(airAndBone(of), set))
  const change = changeOf(before, after)
  return [
    {
      ...row,
      ...routeAverages('air', set, before, after),
      measure: 'air-average',
      unit: 'dB HL',
      change: change.air(set),
    },
    { ...row, ...routeAverages('bone', set, before, after), measure: 'bone-average', unit: 'dB HL' },
    { ...row, measure: 'air-bone-gap', unit: 'dB', before: gap(before), after: outcome(after, gap) },
  ]
}

function surgeryRows({ before, after }: RowsInput): readonly ReportRow[] {
  const set = 'pta4-aao'
  const { frequencies, source, status, reservation = '' } = averageConventions[set]
  const provenance = { source, status, reservation }
  const row = {
    standard: 'aao-1995',
    frequencies,
    provenance: gapReporting,
    notes: interpolation(before, after),
  } as const
  const gap = (of: OccasionTests) => meanAirBoneGap(airAndBone(of), set)
  const closure = after && gapClosure({ before: airAndBone(before), after: airAndBone(after) }, set)
  const change = changeOf(before, after)
  const hf = averageConventions['hf-bone']
  return [
    {
      ...row,
      ...routeAverages('air', set, before, after),
      measure: 'air-average',
      unit: 'dB HL',
      change: change.air(set),
      provenance,
    },
    { ...row, ...routeAverages('bone', set, before, after), measure: 'bone-average', unit: 'dB HL', provenance },
    {
      ...row,
      measure: 'air-bone-gap',
      unit: 'dB',
      before: meanValue(gap(before)),
      after: outcome(after, (of) => meanValue(gap(of))),
      change: closureValue(closure),
    },
    {
      ...row,
      measure: 'gap-bin',
      unit: 'dB',
      before: binValue(gap(before)),
      after: outcome(after, (of) => binValue(gap(of))),
    },
    {
      ...row,
      ...routeAverages('bone', 'hf-bone', before, after),
      measure: 'bone-change',
      unit: 'dB HL',
      frequencies: hf.frequencies,
      change: change.bone(),
      notes: [],
      provenance: { source: hf.source, status: hf.status },
    },
  ]
}

type Closure = ReturnType<typeof gapClosure>

function closureValue(closure: Closure | undefined): ReportValue {
  if (closure === undefined) return absent('no-outcome')
  if (closure.closure !== undefined) return { kind: 'difference', difference: closure.closure }
  const missing = [...closure.before.missing, ...closure.after.missing]
  return { kind: 'missing', frequencies: [...new Set(missing)].sort((a, b) => a - b) }
}

function scattergramRows({ before, after }: RowsInput): readonly ReportRow[] {
  const set = 'pta4-aao'
  const { frequencies } = averageConventions[set]
  const provenance: Provenance = {
    source: 'Gurgel et al., Otolaryngol Head Neck Surg 147:803-807, 2012',
    status: 'confirmed',
    reservation: 'cells, and the score at up to 40 dB SL or most comfortable level, are from memory, unconfirmed',
  }
  const row = { standard: 'gurgel-2012', provenance } as const
  const average = (of: OccasionTests) => pureToneAverage(routeOf(of, 'air'), set)
  const cell = (of: OccasionTests) => speechCell(average(of), wordScoreInQuiet(of))
  return [
    {
      ...row,
      measure: 'word-recognition',
      unit: '%',
      frequencies: [],
      before: scoreValue(wordScoreInQuiet(before)),
      after: outcome(after, (of) => scoreValue(wordScoreInQuiet(of))),
      change: outcome(after, (of) => scorePoints(wordScoreInQuiet(before), wordScoreInQuiet(of))),
      notes: ['best-score-of-occasion'],
    },
    {
      ...row,
      measure: 'scattergram-cell',
      unit: '',
      frequencies,
      before: cell(before),
      after: outcome(after, cell),
      notes: interpolation(before, after),
    },
  ]
}

function implantRows({ before, after, deviceClass }: RowsInput): readonly ReportRow[] {
  const standard = 'implants'
  const source = implantSource(deviceClass)
  const provenance = (of: GainMeasure): Provenance => ({ ...of, source })
  const unaided = unaidedField(before, after)
  const bone = boneFor(before, after)
  const sets = ['pta4-who', 'pta4-aao'] as const
  const gain = (id: keyof typeof gainMeasures, result: GainResult | undefined, notes: readonly RowNote[]) =>
    sets.map(
      (set): ReportRow => ({
        standard,
        measure: id as ReportMeasure,
        unit: 'dB',
        frequencies: averageConventions[set].frequencies,
        after: result === undefined ? noAided(after) : meanValue(result.means.find((mean) => mean.set === set)),
        notes: result === undefined ? [] : notes,
        provenance: provenance(gainMeasures[id]),
      }),
    )
  const aided = after && routeOf(after, 'aided')
  const isAided = aided !== undefined && aided.size > 0
  const levels: Provenance = {
    source,
    status: 'confirmed',
    reservation: 'the itemised data set is from memory, unconfirmed',
  }
  return [
    {
      standard,
      measure: 'aided-average',
      unit: 'dB HL',
      frequencies: averageConventions['pta4-who'].frequencies,
      after: isAided ? averageValue(pureToneAverage(aided, 'pta4-who')) : noAided(after),
      notes: [],
      provenance: levels,
    },
    ...gain(
      'functional-gain',
      isAided && unaided.audiogram.size > 0 ? functionalGain({ unaided: unaided.audiogram, aided }) : undefined,
      unaided.notes,
    ),
    ...gain(
      'effective-gain',
      isAided && bone.audiogram.size > 0 ? effectiveGain({ bone: bone.audiogram, aided }) : undefined,
      bone.notes,
    ),
    ...gain(
      'aided-residual-gap',
      isAided && bone.audiogram.size > 0 ? aidedResidualGap({ bone: bone.audiogram, aided }) : undefined,
      bone.notes,
    ).slice(0, 1),
    ...speechRows(before, after, levels),
  ]
}

function speechRows(
  before: OccasionTests,
  after: OccasionTests | undefined,
  provenance: Provenance,
): readonly ReportRow[] {
  const row = { standard: 'implants', frequencies: [], notes: [], provenance } as const
  return [
    {
      ...row,
      measure: 'word-score-unaided',
      unit: '%',
      before: scoreValue(wordScoreAt65(before, 'sound-field')),
      after: outcome(after, (of) => scoreValue(wordScoreAt65(of, 'sound-field'))),
    },
    {
      ...row,
      measure: 'word-score-aided',
      unit: '%',
      after: outcome(after, (of) => scoreValue(wordScoreAt65(of, 'aided'))),
      change: outcome(after, (of) => scorePoints(wordScoreAt65(before, 'sound-field'), wordScoreAt65(of, 'aided'))),
    },
    {
      ...row,
      measure: 'reception-unaided',
      unit: 'dB HL',
      before: receptionLevel(before, 'unaided'),
      after: outcome(after, (of) => receptionLevel(of, 'unaided')),
    },
    { ...row, measure: 'reception-aided', unit: 'dB HL', after: outcome(after, (of) => receptionLevel(of, 'aided')) },
  ]
}

/** 4, 6 and 8 kHz one by one, so that a table never passes over what was not measured. */
function highFrequencyRows({ before, after }: RowsInput): readonly ReportRow[] {
  const row = { standard: 'high-frequency', notes: [], provenance: highFrequencyReporting } as const
  const high = [4000, 6000, 8000] as const
  const change = changeOf(before, after)
  const at = (measure: ReportMeasure, route: 'air' | 'bone' | 'aided', frequency: FrequencyHz): ReportRow => ({
    ...row,
    measure,
    unit: 'dB HL',
    frequencies: [frequency],
    ...(route === 'aided' ? {} : { before: levelAt(routeOf(before, route), frequency) }),
    after: outcome(after, (of) => levelAt(routeOf(of, route), frequency)),
    ...(route === 'aided' ? {} : { change: change.at(route, frequency) }),
  })
  return [
    ...high.map((frequency) => at('air-at', 'air', frequency)),
    {
      ...row,
      ...routeAverages('air', 'band-high', before, after),
      measure: 'high-average',
      unit: 'dB HL',
      frequencies: high,
      change: change.air('band-high'),
    },
    at('bone-at', 'bone', 4000),
    ...high.map((frequency) => at('aided-at', 'aided', frequency)),
  ]
}

const airAndBone = (of: OccasionTests) => ({ air: routeOf(of, 'air'), bone: routeOf(of, 'bone') })

const outcome = (after: OccasionTests | undefined, of: (after: OccasionTests) => ReportValue): ReportValue =>
  after === undefined ? absent('no-outcome') : of(after)

const noAided = (after: OccasionTests | undefined): ReportValue =>
  absent(after === undefined ? 'no-outcome' : 'no-test')

function routeAverages(
  route: 'air' | 'bone',
  set: AverageId,
  before: OccasionTests,
  after: OccasionTests | undefined,
): { readonly before: ReportValue; readonly after: ReportValue } {
  const of = (occasion: OccasionTests) => averageValue(pureToneAverage(routeOf(occasion, route), set))
  return { before: of(before), after: outcome(after, of) }
}

/** Changes from before to after, positive is better. */
function changeOf(before: OccasionTests, after: OccasionTests | undefined) {
  const pair = (route: 'air' | 'bone') => after && { before: routeOf(before, route), after: routeOf(after, route) }
  const air = pair('air')
  const bone = pair('bone')
  const changes = { air: air && airChange(air), bone: bone && boneChange(bone) }
  return {
    air: (set: DifferenceSetId) =>
      changes.air === undefined ? absent('no-outcome') : meanValue(changes.air.means.find((mean) => mean.set === set)),
    bone: () => (changes.bone === undefined ? absent('no-outcome') : meanValue(changes.bone.means[0])),
    at: (route: 'air' | 'bone', frequency: FrequencyHz): ReportValue => {
      const change = changes[route]
      if (change === undefined) return absent('no-outcome')
      const difference = change.byFrequency.get(frequency)
      return difference === undefined
        ? { kind: 'missing', frequencies: [frequency] }
        : { kind: 'difference', difference }
    },
  }
}

function interpolation(before: OccasionTests, after: OccasionTests | undefined): readonly RowNote[] {
  const averages = [before, ...(after === undefined ? [] : [after])].flatMap((of) =>
    (['air', 'bone'] as const).map((route) => pureToneAverage(routeOf(of, route), 'pta4-aao')),
  )
  const taken = averages.flatMap(({ substituted }) => substituted ?? [])
  if (taken.length === 0) return []
  return [taken.some(({ uncertain }) => uncertain) ? 'three-kilohertz-uncertain' : 'three-kilohertz-interpolated']
}

interface Input {
  readonly audiogram: Audiogram
  readonly notes: readonly RowNote[]
}

/** The bone conduction of the visit, or else that before the operation. */
function boneFor(before: OccasionTests, after: OccasionTests | undefined): Input {
  const now = after && routeOf(after, 'bone')
  return now !== undefined && now.size > 0
    ? { audiogram: now, notes: [] }
    : { audiogram: routeOf(before, 'bone'), notes: after === undefined ? [] : ['bone-from-before'] }
}

/** The unaided sound field of the visit, or else that before the operation, or else earphones before it. */
function unaidedField(before: OccasionTests, after: OccasionTests | undefined): Input {
  const now = after && routeOf(after, 'sound-field')
  if (now !== undefined && now.size > 0) return { audiogram: now, notes: [] }
  const then = routeOf(before, 'sound-field')
  if (then.size > 0) return { audiogram: then, notes: ['sound-field-from-before'] }
  return { audiogram: routeOf(before, 'air'), notes: ['earphone-for-sound-field'] }
}
