import type { FrequencyHz } from '../units/frequencies.ts'
import { asDbHl, type DbHl } from '../units/levels.ts'
import { atLeast, type Bounds, boundsOf, exactly, isExact } from './bounds.ts'
import { requireThreshold } from './domain.ts'
import type { Provenance } from './provenance.ts'
import type { Audiogram, Threshold } from './thresholds.ts'

export type AverageId =
  | 'pta4-who'
  | 'pta4-biap'
  | 'pta4-aao'
  | 'pta3'
  | 'fletcher2'
  | 'pta5-bsa'
  | 'hf-bone'
  | 'band-low'
  | 'band-mid'
  | 'band-high'

/** A pure-tone average of the trade, as data: the screen shows these fields under "how computed". */
export interface AverageConvention extends Provenance {
  readonly id: AverageId
  readonly frequencies: readonly FrequencyHz[]
  readonly take: 'all' | 'best-two'
  readonly rounding: 'none' | 'up-to-whole-db'
  /** The level that the scheme itself puts for "no response"; without one the average is a lower bound. */
  readonly noResponseAs?: DbHl
  /** Whether an untested 3 kHz is taken as the mean of 2 and 4 kHz. */
  readonly interpolates3000: boolean
}

export const averageConventions: { readonly [Id in AverageId]: AverageConvention & { readonly id: Id } } = {
  'pta4-who': {
    id: 'pta4-who',
    frequencies: [500, 1000, 2000, 4000],
    take: 'all',
    rounding: 'none',
    interpolates3000: false,
    source: 'WHO, World Report on Hearing, 2021, Table 1.3',
    status: 'confirmed',
  },
  'pta4-biap': {
    id: 'pta4-biap',
    frequencies: [500, 1000, 2000, 4000],
    take: 'all',
    rounding: 'up-to-whole-db',
    noResponseAs: asDbHl(120),
    interpolates3000: false,
    source: 'BIAP Recommendation 02/1 bis',
    status: 'confirmed',
  },
  'pta4-aao': {
    id: 'pta4-aao',
    frequencies: [500, 1000, 2000, 3000],
    take: 'all',
    rounding: 'none',
    interpolates3000: true,
    source:
      'AAO-HNS Committee on Hearing and Equilibrium, Otolaryngol Head Neck Surg 113:186-187, 1995; 3 kHz from 2 and 4 kHz: Gurgel et al., Otolaryngol Head Neck Surg 147:803-807, 2012',
    status: 'confirmed',
    reservation: 'the 3 kHz substitution is from memory, unconfirmed',
  },
  pta3: {
    id: 'pta3',
    frequencies: [500, 1000, 2000],
    take: 'all',
    rounding: 'none',
    interpolates3000: false,
    source: 'ASHA 1988; the classical speech-frequency average',
    status: 'confirmed',
  },
  fletcher2: {
    id: 'fletcher2',
    frequencies: [500, 1000, 2000],
    take: 'best-two',
    rounding: 'none',
    interpolates3000: false,
    source: 'Fletcher H, J Acoust Soc Am 22:1-5, 1950: the two best of 0.5, 1 and 2 kHz',
    status: 'confirmed',
    reservation: 'the best-two rule was seen in a public teaching text; the paper itself is cited from memory',
  },
  'pta5-bsa': {
    id: 'pta5-bsa',
    frequencies: [250, 500, 1000, 2000, 4000],
    take: 'all',
    rounding: 'none',
    noResponseAs: asDbHl(130),
    interpolates3000: false,
    source: 'BSA Recommended Procedure, pure-tone audiometry, 2018',
    status: 'from memory, unconfirmed',
  },
  'hf-bone': {
    id: 'hf-bone',
    frequencies: [1000, 2000, 4000],
    take: 'all',
    rounding: 'none',
    interpolates3000: false,
    source: 'AAO-HNS Committee on Hearing and Equilibrium, Otolaryngol Head Neck Surg 113:186-187, 1995',
    status: 'from memory, unconfirmed',
  },
  'band-low': {
    id: 'band-low',
    frequencies: [250, 500],
    take: 'all',
    rounding: 'none',
    interpolates3000: false,
    source: 'octaves below 1 kHz',
    status: 'common practice, no source',
  },
  'band-mid': {
    id: 'band-mid',
    frequencies: [1000, 2000],
    take: 'all',
    rounding: 'none',
    interpolates3000: false,
    source: 'octaves from 1 to 2 kHz',
    status: 'common practice, no source',
  },
  'band-high': {
    id: 'band-high',
    frequencies: [4000, 6000, 8000],
    take: 'all',
    rounding: 'none',
    interpolates3000: false,
    source: 'high-frequency set of surgical series',
    status: 'from memory, unconfirmed',
    reservation: 'ordinary bone vibrators give nothing above 4 kHz: 6 and 8 kHz are air conduction or sound field only',
  },
}

/** How one level came into an average. */
export interface AverageInput {
  readonly frequency: FrequencyHz
  /** As measured; absent when the level was interpolated. */
  readonly threshold?: Threshold
  readonly usedAs: DbHl
  readonly how: 'measured' | 'no-response' | 'no-response-by-scheme' | 'interpolated'
  /** The true level may be worse than `usedAs`. */
  readonly lowerBound: boolean
}

export interface Interpolation {
  readonly frequency: 3000
  readonly from: readonly [2000, 4000]
  /** 2 and 4 kHz differ by more than 15 dB: the error at 3 kHz then exceeds 10 dB in one ear of seven. */
  readonly uncertain: boolean
}

export interface AverageResult {
  readonly convention: AverageConvention
  /** dB HL; absent when a frequency of the set is missing. */
  readonly value?: DbHl
  /** The value is a lower bound and is printed with "≥". */
  readonly censored: boolean
  readonly inputs: readonly AverageInput[]
  readonly missing: readonly FrequencyHz[]
  readonly substituted?: Interpolation
}

/**
 * A pure-tone average of one ear by one route, in dB HL.
 *
 * A frequency that was not tested, or could not be, leaves the average without a value and stands in `missing`; the
 * one exception is the named 3 kHz substitution. "No response" counts as the level that the scheme prescribes, or
 * else makes the average a lower bound.
 * An audiogram is never changed once made: the average is kept with it and computed once.
 * @throws RangeError when a level that the average needs is outside -20 to 130 dB HL
 * Sources: `averageConventions`. Checked by: tests/published/who-2021.test.ts, biap-02-1.test.ts, gurgel-2012.test.ts
 */
export function pureToneAverage(audiogram: Audiogram, id: AverageId): AverageResult {
  const known = averagesOf(audiogram)
  const average = known.get(id) ?? averageBy(audiogram, averageConventions[id])
  known.set(id, average)
  return average
}

/** Gaps, grades, types and changes ask for the same few averages of an audiogram again and again. */
const computed = new WeakMap<Audiogram, Map<AverageId, AverageResult>>()

function averagesOf(audiogram: Audiogram): Map<AverageId, AverageResult> {
  const known = computed.get(audiogram) ?? new Map<AverageId, AverageResult>()
  computed.set(audiogram, known)
  return known
}

function averageBy(audiogram: Audiogram, convention: AverageConvention): AverageResult {
  const found = convention.frequencies.map((frequency) => inputAt(audiogram, frequency, convention))
  const inputs = found.filter((input) => input !== undefined)
  const missing = convention.frequencies.filter((_, index) => found[index] === undefined)
  const noted = inputs.some((input) => input.how === 'interpolated') ? { substituted: interpolationOf(audiogram) } : {}
  if (missing.length > 0) return { convention, censored: false, inputs, missing, ...noted }
  const counted = convention.take === 'best-two' ? bestTwo(inputs) : inputs
  const censored = counted.some((input) => input.lowerBound)
  return { convention, value: averageOf(counted, convention), censored, inputs: counted, missing, ...noted }
}

/** What is known of the average as bounds; nothing when it has no value. */
export function averageBounds({ value, censored }: Pick<AverageResult, 'value' | 'censored'>): Bounds | undefined {
  if (value === undefined) return undefined
  return censored ? atLeast(value) : exactly(value)
}

function inputAt(audiogram: Audiogram, frequency: FrequencyHz, rule: AverageConvention): AverageInput | undefined {
  const threshold = audiogram.get(frequency)
  if (threshold !== undefined && threshold.kind !== 'could-not-test') {
    requireThreshold('audiogram', frequency, threshold)
    return measuredInput(frequency, threshold, rule)
  }
  return frequency === 3000 && rule.interpolates3000 ? interpolated3000(audiogram, rule) : undefined
}

type Tested = Exclude<Threshold, { kind: 'could-not-test' }>

function measuredInput(frequency: FrequencyHz, threshold: Tested, { noResponseAs }: AverageConvention): AverageInput {
  if (threshold.kind === 'heard') {
    return { frequency, threshold, usedAs: threshold.level, how: 'measured', lowerBound: false }
  }
  if (noResponseAs !== undefined) {
    return { frequency, threshold, usedAs: noResponseAs, how: 'no-response-by-scheme', lowerBound: false }
  }
  return { frequency, threshold, usedAs: threshold.limit, how: 'no-response', lowerBound: true }
}

function interpolated3000(audiogram: Audiogram, rule: AverageConvention): AverageInput | undefined {
  const below = inputAt(audiogram, 2000, rule)
  const above = inputAt(audiogram, 4000, rule)
  if (below === undefined || above === undefined) return undefined
  const usedAs = asDbHl((below.usedAs + above.usedAs) / 2)
  return { frequency: 3000, usedAs, how: 'interpolated', lowerBound: below.lowerBound || above.lowerBound }
}

function interpolationOf(audiogram: Audiogram): Interpolation {
  const from = [2000, 4000] as const
  const [below, above] = from.map((frequency) => boundsOf(audiogram.get(frequency)))
  const measured = below !== undefined && above !== undefined && isExact(below) && isExact(above)
  return { frequency: 3000, from, uncertain: !measured || Math.abs(below.low - above.low) > 15 }
}

/** The two lowest levels; of two equal ones the measured before the lower bound. */
function bestTwo(inputs: readonly AverageInput[]): readonly AverageInput[] {
  const ranked = inputs.toSorted((a, b) => a.usedAs - b.usedAs || Number(a.lowerBound) - Number(b.lowerBound))
  return ranked.slice(0, 2)
}

function averageOf(inputs: readonly AverageInput[], { rounding }: AverageConvention): DbHl {
  const mean = inputs.reduce((sum, input) => sum + input.usedAs, 0) / inputs.length
  return asDbHl(rounding === 'none' ? mean : Math.ceil(mean))
}
