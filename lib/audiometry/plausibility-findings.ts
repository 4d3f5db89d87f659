import { Ear, type FrequencyHz, otherEar } from '../units/frequencies.ts'
import type { AudiometerLimits } from './audiometer-limits.ts'
import { boundsOf, difference, isAtLeast, isExact } from './bounds.ts'
import { type Finding, finding } from './findings.ts'
import { decisionAttenuation } from './interaural-attenuation.ts'
import { speechToneAgreement } from './speech-agreement.ts'
import { boneAttributedTo, otherOf, type TestedEar, type TestedEars, unmaskedLevel } from './tested-ear.ts'
import type { Audiogram } from './thresholds.ts'

type Conduction = 'air' | 'bone'

/** Mastoid levels at which the vibrator is felt on average, dB HL: ISO 8253-1:2010, 8.4. */
export const vibrotactileLevels = new Map<FrequencyHz, number>([
  [250, 40],
  [500, 60],
  [1000, 70],
])
/** By so much lower on the forehead, in dB: ISO 8253-1:2010, 8.4, note. */
export const foreheadOffset = 10

/** Bone conduction worse than air conduction by this much is flagged; 10 dB is inside test-retest error. */
const boneWorseLimit = 15
/** From this air-conduction level on, cross-hearing calls for caution: ISO 8253-1:2010, 6.2.3.2. */
const crossHearingFrom = 40
/** A second threshold at 1 kHz agrees to this, in dB: ISO 8253-1:2010, 6.2.3.2. */
const retestAgreement = 5

/**
 * What one ear's thresholds say against themselves: felt instead of heard, bone worse than air, beyond the audiometer,
 * off its step, speech against tones, the lone 4 kHz gap, and the 1 kHz repeat.
 * Sources: `findingRules`. Checked by: tests/published/plausibility.test.ts
 */
export function earFindings(ear: Ear, tested: TestedEar, limits: AudiometerLimits): readonly Finding[] {
  const points = pointsOf(tested)
  return [
    ...vibrotactile(ear, tested),
    ...boneWorseThanAir(ear, tested),
    ...beyondAudiometer(ear, points, limits),
    ...offStep(ear, points, tested.levelStep ?? 5),
    ...speechAgainstTones(ear, tested),
    ...lone4kHzGap(ear, tested),
    ...retestAt1000(ear, tested),
  ]
}

function vibrotactile(ear: Ear, { bone, boneTransducer = 'bone-mastoid' }: TestedEar): readonly Finding[] {
  const offset = boneTransducer === 'bone-forehead' ? foreheadOffset : 0
  return heardLevels(bone).flatMap(({ frequency, level }) => {
    const mastoid = vibrotactileLevels.get(frequency)
    if (mastoid === undefined || level < mastoid - offset) return []
    const why = { level, feltFrom: mastoid - offset, transducer: boneTransducer }
    return [finding('possibly-vibrotactile', { ear, route: 'bone', frequency }, why)]
  })
}

function heardLevels(audiogram: Audiogram): readonly { frequency: FrequencyHz; level: number }[] {
  return [...audiogram].flatMap(([frequency, of]) => (of.kind === 'heard' ? [{ frequency, level: of.level }] : []))
}

function boneWorseThanAir(ear: Ear, { air, bone }: TestedEar): readonly Finding[] {
  return [...bone].flatMap(([frequency, threshold]) => {
    const boneBounds = boundsOf(threshold)
    const airBounds = boundsOf(air.get(frequency))
    if (boneBounds === undefined || airBounds === undefined) return []
    if (isAtLeast(difference(boneBounds, airBounds), boneWorseLimit) !== true) return []
    const levels = { boneLevel: boneBounds.low, airLevel: airBounds.low, difference: boneBounds.low - airBounds.low }
    return [finding('bone-worse-than-air', { ear, route: 'bone', frequency }, { ...levels, limit: boneWorseLimit })]
  })
}

interface Measured {
  readonly route: Conduction
  readonly frequency: FrequencyHz
  /** The level heard, or the limit at which nothing was, in dB HL. */
  readonly level: number
}

function pointsOf(tested: TestedEar): readonly Measured[] {
  const points: Measured[] = []
  for (const route of ['air', 'bone'] as const) {
    for (const [frequency, of] of tested[route]) {
      if (of.kind !== 'could-not-test')
        points.push({ route, frequency, level: of.kind === 'heard' ? of.level : of.limit })
    }
  }
  return points
}

function beyondAudiometer(ear: Ear, points: readonly Measured[], limits: AudiometerLimits): readonly Finding[] {
  const beyond: Finding[] = []
  for (const { route, frequency, level } of points) {
    const limit = limits[route][frequency]
    if (limit !== undefined && level > limit)
      beyond.push(finding('beyond-audiometer', { ear, route, frequency }, { level, limit }))
  }
  return beyond
}

function offStep(ear: Ear, points: readonly Measured[], step: number): readonly Finding[] {
  return points
    .filter(({ level }) => !Number.isInteger(level / step))
    .map(({ route, frequency, level }) => finding('off-step', { ear, route, frequency }, { level, step }))
}

function speechAgainstTones(ear: Ear, { air, speechReceptionThreshold }: TestedEar): readonly Finding[] {
  if (speechReceptionThreshold === undefined) return []
  const { by, average, difference: apart, agreement, withinTenDb } = speechToneAgreement(air, speechReceptionThreshold)
  if (apart === undefined || agreement === undefined || average.value === undefined || withinTenDb) return []
  const why = { speech: speechReceptionThreshold, tones: average.value, difference: apart, agreement, average: by }
  const where = { ear, route: 'air' } as const
  return [apart < 0 ? finding('speech-better-than-tones', where, why) : finding('speech-poorer-than-tones', where, why)]
}

/** Gaps below this at 0.5, 1 and 2 kHz count as closed, in dB. */
const closedBelow = 10

function lone4kHzGap(ear: Ear, tested: TestedEar): readonly Finding[] {
  const gap = exactGap(tested, 4000)
  const others = ([500, 1000, 2000] as const).map((frequency) => exactGap(tested, frequency))
  if (gap === undefined || gap < 10 || gap > 20) return []
  if (!others.every((other) => other !== undefined && other < closedBelow)) return []
  return [finding('lone-4-khz-gap', { ear, route: 'bone', frequency: 4000 }, { gap })]
}

function exactGap({ air, bone }: TestedEar, frequency: FrequencyHz): number | undefined {
  const airBounds = boundsOf(air.get(frequency))
  const boneBounds = boundsOf(bone.get(frequency))
  if (airBounds === undefined || boneBounds === undefined) return undefined
  return isExact(airBounds) && isExact(boneBounds) ? airBounds.low - boneBounds.low : undefined
}

function retestAt1000(ear: Ear, { air, repeatAt1000 }: TestedEar): readonly Finding[] {
  const first = air.get(1000)
  if (repeatAt1000 === undefined || first?.kind !== 'heard') return []
  const apart = Math.abs(repeatAt1000 - first.level)
  if (apart <= retestAgreement) return []
  const why = { first: first.level, second: repeatAt1000, difference: apart }
  return [finding('retest-1-khz', { ear, route: 'air', frequency: 1000 }, why)]
}

/** A shadow curve runs at least at three frequencies, no further above the other inner ear than this, in dB. */
const shadowReach = 25
/** "Parallel": the distances to the other inner ear lie within this, in dB. */
const shadowSpread = 15

/**
 * What the two ears say against each other: a curve that may be the other ear's shadow, and cross-hearing that cannot
 * be excluded because the other ear was not tested there.
 */
export function crossHearingFindings(ears: TestedEars): readonly Finding[] {
  return Ear.options.flatMap((ear) => [...shadowCurve(ears, ear), ...notExcluded(ears, ear)])
}

function shadowCurve(ears: TestedEars, ear: Ear): readonly Finding[] {
  const transducer = ears[ear].airTransducer ?? 'supra-aural'
  const from = decisionAttenuation.byTransducer[transducer]
  const distances = distancesToOther(ears, ear).filter(({ by }) => by >= from && by <= from + shadowReach)
  if (distances.length < 3) return []
  const least = Math.min(...distances.map(({ by }) => by))
  const most = Math.max(...distances.map(({ by }) => by))
  if (most - least > shadowSpread) return []
  const frequencies = distances.map(({ frequency }) => frequency)
  return [finding('possible-shadow-curve', { ear, route: 'air' }, { frequencies, least, most, transducer })]
}

/** Unmasked air conduction above the other side's inner ear, or above its air conduction where bone is unknown. */
function distancesToOther(ears: TestedEars, ear: Ear): readonly { frequency: FrequencyHz; by: number }[] {
  return [...ears[ear].air].flatMap(([frequency, threshold]) => {
    if (threshold.kind !== 'heard' || threshold.masked) return []
    const other =
      boneAttributedTo(ears, otherEar(ear), frequency) ?? unmaskedLevel(otherOf(ears, ear), 'air', frequency)
    return other === undefined ? [] : [{ frequency, by: threshold.level - other }]
  })
}

function notExcluded(ears: TestedEars, ear: Ear): readonly Finding[] {
  const other = otherOf(ears, ear)
  return [...ears[ear].air].flatMap(([frequency, threshold]) => {
    if (threshold.kind !== 'heard' || threshold.masked || threshold.level < crossHearingFrom) return []
    const known = other.air.has(frequency) || boneAttributedTo(ears, otherEar(ear), frequency) !== undefined
    if (known) return []
    const why = { level: threshold.level, from: crossHearingFrom }
    return [finding('cross-hearing-not-excluded', { ear, route: 'air', frequency }, why)]
  })
}
