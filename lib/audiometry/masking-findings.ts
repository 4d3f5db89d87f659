import { Ear, type FrequencyHz, otherEar } from '../units/frequencies.ts'
import { boundsOf } from './bounds.ts'
import { type Finding, type FindingFacts, finding } from './findings.ts'
import { decisionAttenuation, maskingWindow, minimumAttenuation, occlusionAt } from './interaural-attenuation.ts'
import {
  type AirTransducer,
  boneAttributedTo,
  isMasked,
  maskedLevel,
  otherOf,
  type TestedEar,
  type TestedEars,
  testedFrequencies,
  unmaskedBoneOfEither,
  unmaskedLevel,
} from './tested-ear.ts'

export type MaskingProcedure = 'bsa-2018' | 'asha-2005'

/** BSA rule 2: bone conduction better than air conduction by this much, in dB. */
const bsaRule2Limit = 10
/** ASHA: an air-bone gap of more than this asks for masked bone conduction, in dB. */
const ashaBoneLimit = 10

const transducerOf = (tested: TestedEar): AirTransducer => tested.airTransducer ?? 'supra-aural'

/**
 * Thresholds that need masking by the chosen procedure and do not have it, and masking that has no room.
 * A tone that was not heard without masking was not heard by either ear, so it needs none.
 * Sources: `findingRules`. Checked by: tests/published/masking-rules.test.ts
 */
export function maskingFindings(ears: TestedEars, procedure: MaskingProcedure): readonly Finding[] {
  const rules = procedure === 'bsa-2018' ? [bsaRule1or3, bsaRule2] : [ashaAir, ashaBone]
  const needed: Finding[] = []
  const windows: Finding[] = []
  for (const frequency of testedFrequencies(ears))
    for (const ear of Ear.options) {
      const asked = rules.flatMap((rule) => rule(ears, { ear, frequency }) ?? [])
      needed.push(...asked)
      windows.push(...windowFindings(ears, { ear, frequency }, asked))
    }
  return [...needed, ...windows]
}

interface Place {
  readonly ear: Ear
  readonly frequency: FrequencyHz
}

const bsaRule1or3 = (ears: TestedEars, place: Place): Finding | undefined =>
  bsaRule1(ears, place) ?? bsaRule3(ears, place)

function bsaRule1(ears: TestedEars, { ear, frequency }: Place): Finding | undefined {
  const level = unmaskedLevel(ears[ear], 'air', frequency)
  const otherEarAir = unmaskedLevel(otherOf(ears, ear), 'air', frequency)
  if (level === undefined || otherEarAir === undefined || isMasked(ears[ear], 'air', frequency)) return undefined
  const transducer = transducerOf(ears[ear])
  const limit = decisionAttenuation.byTransducer[transducer]
  const difference = level - otherEarAir
  if (difference < limit) return undefined
  return finding('mask-air-bsa-1', airAt(ear, frequency), { level, otherEarAir, difference, limit, transducer })
}

function bsaRule3(ears: TestedEars, { ear, frequency }: Place): Finding | undefined {
  const limit = decisionAttenuation.byTransducer[transducerOf(ears[ear])]
  const why = airAgainstBone(ears, { ear, frequency }, limit)
  return why && finding('mask-air-bsa-3', airAt(ear, frequency), why)
}

function ashaAir(ears: TestedEars, { ear, frequency }: Place): Finding | undefined {
  const limit = minimumAttenuation(transducerOf(ears[ear]), frequency)
  const why = airAgainstBone(ears, { ear, frequency }, limit)
  return why && finding('mask-air-asha', airAt(ear, frequency), why)
}

type AirAgainstBone = FindingFacts['mask-air-bsa-3'] & FindingFacts['mask-air-asha']

function airAgainstBone(ears: TestedEars, { ear, frequency }: Place, limit: number): AirAgainstBone | undefined {
  const level = unmaskedLevel(ears[ear], 'air', frequency)
  const otherEarBone = boneAttributedTo(ears, otherEar(ear), frequency)
  if (level === undefined || otherEarBone === undefined || isMasked(ears[ear], 'air', frequency)) return undefined
  const difference = level - otherEarBone
  return difference < limit
    ? undefined
    : { level, otherEarBone, difference, limit, transducer: transducerOf(ears[ear]) }
}

const airAt = (ear: Ear, frequency: FrequencyHz) => ({ ear, route: 'air', frequency }) as const
const boneAt = (ear: Ear, frequency: FrequencyHz) => ({ ear, route: 'bone', frequency }) as const

/** Lowest air-conduction level that is possible: the limit itself where there was no response. */
function airFrom(tested: TestedEar, frequency: FrequencyHz): number | undefined {
  return boundsOf(tested.air.get(frequency))?.low
}

/** The test ear is the one that hears worse by air; with equal ears, both. */
function bsaRule2(ears: TestedEars, { ear, frequency }: Place): Finding | undefined {
  const airLevel = airFrom(ears[ear], frequency)
  const otherAir = airFrom(otherOf(ears, ear), frequency)
  const boneLevel = unmaskedBoneOfEither(ears, frequency)
  if (airLevel === undefined || boneLevel === undefined || isMasked(ears[ear], 'bone', frequency)) return undefined
  if (otherAir !== undefined && otherAir > airLevel) return undefined
  const difference = airLevel - boneLevel
  if (difference < bsaRule2Limit) return undefined
  return finding('mask-bone-bsa-2', boneAt(ear, frequency), { boneLevel, airLevel, difference, limit: bsaRule2Limit })
}

function ashaBone(ears: TestedEars, { ear, frequency }: Place): Finding | undefined {
  const airLevel = airFrom(ears[ear], frequency)
  const boneLevel = unmaskedBoneOfEither(ears, frequency)
  if (airLevel === undefined || boneLevel === undefined || isMasked(ears[ear], 'bone', frequency)) return undefined
  const difference = airLevel - boneLevel
  if (difference <= ashaBoneLimit) return undefined
  return finding('mask-bone-asha', boneAt(ear, frequency), { boneLevel, airLevel, difference, limit: ashaBoneLimit })
}

/** The window matters where masking was used, and where it is still to be used. */
function windowFindings(ears: TestedEars, place: Place, asked: readonly Finding[]): readonly Finding[] {
  return (['air', 'bone'] as const).flatMap((route) => {
    if (isMasked(ears[place.ear], route, place.frequency))
      return windowFinding('overmasking-risk', ears, route, place) ?? []
    if (!asked.some(({ where }) => where.route === route)) return []
    return windowFinding('masking-dilemma', ears, route, place) ?? []
  })
}

function windowFinding(
  id: 'overmasking-risk' | 'masking-dilemma',
  ears: TestedEars,
  route: 'air' | 'bone',
  { ear, frequency }: Place,
): Finding | undefined {
  const masked = otherOf(ears, ear)
  const airNonTest = airFrom(masked, frequency)
  const boneTest = boneAttributedTo(ears, ear, frequency)
  if (airNonTest === undefined || boneTest === undefined) return undefined
  const transducer = transducerOf(masked)
  const { least, most, dilemma } = maskingWindow({
    airNonTest,
    boneTest,
    interauralAttenuation: minimumAttenuation(transducer, frequency),
    occlusionEffect: route === 'bone' ? occlusionOf(masked, frequency) : 0,
  })
  return dilemma ? finding(id, { ear, route, frequency }, { least, most, transducer }) : undefined
}

/** An ear with a gap of 20 dB or more of its own is occluded already. */
function occlusionOf(masked: TestedEar, frequency: FrequencyHz): number {
  const air = airFrom(masked, frequency)
  const bone = maskedLevel(masked, 'bone', frequency)
  if (air !== undefined && bone !== undefined && air - bone >= 20) return 0
  return occlusionAt(frequency)
}
