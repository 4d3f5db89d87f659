import { asDbHl, type DbHl } from '../units/levels.ts'
import { type AverageId, type AverageResult, averageBounds, pureToneAverage } from './averages.ts'
import { type Bounds, both, type Decided, higherOf, isAtLeast, lowerOf, not } from './bounds.ts'
import { requireWithin } from './domain.ts'
import { type BothEars, mapEars } from './pairs.ts'
import type { Provenance } from './provenance.ts'
import type { Audiogram } from './thresholds.ts'

export type GradeScaleId = 'who-2021' | 'biap' | 'clark' | 'bsa'

/** One grade: it begins where the one before it ends. `below` excludes its bound, `upTo` includes it. In dB HL. */
export type Grade = { readonly name: string } & (
  | { readonly below: number }
  | { readonly upTo: number }
  | { readonly open: true }
)

export interface GradeScale extends Provenance {
  readonly id: GradeScaleId
  readonly average: AverageId
  readonly grades: readonly Grade[]
}

export const gradeScales: { readonly [Id in GradeScaleId]: GradeScale & { readonly id: Id } } = {
  'who-2021': {
    id: 'who-2021',
    average: 'pta4-who',
    grades: [
      { name: 'normal', below: 20 },
      { name: 'mild', below: 35 },
      { name: 'moderate', below: 50 },
      { name: 'moderately severe', below: 65 },
      { name: 'severe', below: 80 },
      { name: 'profound', below: 95 },
      { name: 'complete', open: true },
    ],
    source: 'WHO, World Report on Hearing, 2021, Table 1.3',
    status: 'confirmed',
    reservation: 'the rows "complete" and "unilateral" are from memory, unconfirmed',
  },
  biap: {
    id: 'biap',
    average: 'pta4-biap',
    grades: [
      { name: 'I normal or subnormal', upTo: 20 },
      { name: 'II mild', upTo: 40 },
      { name: 'III moderate, 1st degree', upTo: 55 },
      { name: 'III moderate, 2nd degree', upTo: 70 },
      { name: 'IV severe, 1st degree', upTo: 80 },
      { name: 'IV severe, 2nd degree', upTo: 90 },
      { name: 'V very severe, 1st degree', upTo: 100 },
      { name: 'V very severe, 2nd degree', upTo: 110 },
      { name: 'V very severe, 3rd degree', upTo: 119 },
      { name: 'VI total (cophosis)', open: true },
    ],
    source: 'BIAP Recommendation 02/1 bis',
    status: 'confirmed',
    reservation: 'texts differ on exactly 20 dB; here it is class I',
  },
  clark: {
    id: 'clark',
    average: 'pta3',
    grades: [
      { name: 'normal', upTo: 15 },
      { name: 'slight', upTo: 25 },
      { name: 'mild', upTo: 40 },
      { name: 'moderate', upTo: 55 },
      { name: 'moderately severe', upTo: 70 },
      { name: 'severe', upTo: 90 },
      { name: 'profound', open: true },
    ],
    source: 'Clark JG, ASHA 23:493-500, 1981',
    status: 'confirmed',
    reservation: 'printed with whole-dB bounds; averages between them are read by cut-offs',
  },
  bsa: {
    id: 'bsa',
    average: 'pta5-bsa',
    grades: [
      { name: 'below 20 dB HL', below: 20 },
      { name: 'mild', upTo: 40 },
      { name: 'moderate', upTo: 70 },
      { name: 'severe', upTo: 95 },
      { name: 'profound', open: true },
    ],
    source: 'BSA Recommended Procedure, pure-tone audiometry, 2018',
    status: 'confirmed',
    reservation: 'the bands are confirmed; the frequency set and 130 dB for no response are from memory, unconfirmed',
  },
}

export interface GradeResult {
  readonly scale: GradeScale
  readonly average: AverageResult
  /** Absent when the average has no value. */
  readonly grade?: string
  /** The average is a lower bound that leaves worse grades open: printed as "at least ...". */
  readonly orWorse: boolean
}

/**
 * The grade of one ear, from the unrounded average of the scale's own frequency set (BIAP rounds up by its own rule).
 * The WHO scale is meant for the better ear: see `gradeWho2021`.
 * @throws RangeError when the audiogram is out of domain
 * Sources: `gradeScales`. Checked by: tests/published/who-2021.test.ts, biap-02-1.test.ts, clark-1981.test.ts
 */
export function gradeEar(audiogram: Audiogram, id: GradeScaleId): GradeResult {
  const scale = gradeScales[id]
  const average = pureToneAverage(audiogram, scale.average)
  return { scale, average, ...gradeWithin(scale, averageBounds(average)) }
}

/**
 * The name of the grade for an average that is already at hand.
 * @param average dB HL, -20 to 130, of the frequency set that the scale prescribes
 * @throws RangeError when `average` is outside that range
 */
export function gradeName(average: number, id: GradeScaleId): string {
  return nameAt(gradeScales[id], requireWithin('average', average, -20, 130, 'dB HL'))
}

function gradeWithin(scale: GradeScale, bounds: Bounds | undefined): { grade?: string; orWorse: boolean } {
  if (bounds === undefined) return { orWorse: false }
  const grade = nameAt(scale, bounds.low)
  return { grade, orWorse: nameAt(scale, bounds.high) !== grade }
}

function nameAt({ grades }: GradeScale, level: number): string {
  const found = grades.find((grade) =>
    'below' in grade ? level < grade.below : 'upTo' in grade ? level <= grade.upTo : true,
  )
  if (found === undefined) throw new TypeError('a grade scale must end with an open grade')
  return found.name
}

export interface WhoGradeResult {
  readonly scale: GradeScale
  readonly averages: BothEars<AverageResult>
  /** Absent when either ear has no average. */
  readonly betterEarAverage?: DbHl
  readonly grade?: string
  readonly orWorse: boolean
  /** Better ear below 20 and worse ear at 35 dB HL or more; undefined when it cannot be decided. */
  readonly unilateral: Decided
}

/**
 * The WHO 2021 grade of a person: the better ear's average, and the separate category of unilateral hearing loss.
 * @throws RangeError when an audiogram is out of domain
 * Source: `gradeScales['who-2021']`. Checked by: tests/published/who-2021.test.ts
 */
export function gradeWho2021(ears: BothEars<Audiogram>): WhoGradeResult {
  const scale = gradeScales['who-2021']
  const averages = mapEars(ears, (audiogram) => pureToneAverage(audiogram, scale.average))
  const right = averageBounds(averages.right)
  const left = averageBounds(averages.left)
  if (right === undefined || left === undefined) return { scale, averages, orWorse: false, unilateral: undefined }
  const better = lowerOf(right, left)
  const unilateral = both(not(isAtLeast(better, 20)), isAtLeast(higherOf(right, left), 35))
  return { scale, averages, betterEarAverage: asDbHl(better.low), ...gradeWithin(scale, better), unilateral }
}

export interface BiapBinauralResult {
  readonly scale: GradeScale
  readonly averages: BothEars<AverageResult>
  /** (7 x better + 3 x worse) / 10 in dB HL, rounded up to the next whole dB; absent when an ear has no average. */
  readonly value?: DbHl
  readonly grade?: string
}

/**
 * The binaural average of BIAP for asymmetric hearing loss. With equal ears it is their common average.
 * @throws RangeError when an audiogram is out of domain
 * Source: BIAP Recommendation 02/1 bis; that the result is rounded up like each ear's average: common practice, no source.
 */
export function biapBinaural(ears: BothEars<Audiogram>): BiapBinauralResult {
  const scale = gradeScales.biap
  const averages = mapEars(ears, (audiogram) => pureToneAverage(audiogram, scale.average))
  const { right, left } = mapEars(averages, (average) => average.value)
  if (right === undefined || left === undefined) return { scale, averages }
  const value = Math.ceil((7 * Math.min(right, left) + 3 * Math.max(right, left)) / 10)
  return { scale, averages, value: asDbHl(value), grade: nameAt(scale, value) }
}
