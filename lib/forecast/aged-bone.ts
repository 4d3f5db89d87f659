import { requireAudiogram, requireWithin } from '../audiometry/domain.ts'
import { ageNorm, type Iso7029Edition, isIso7029Frequency, iso7029Editions } from '../audiometry/iso-7029.ts'
import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { Patient } from '../devices/scenario.ts'
import { audiometricFrequenciesHz, type FrequencyHz } from '../units/frequencies.ts'
import { asDbHl } from '../units/levels.ts'

/** SD of the progress of one ear, as a share of the progress of the median. */
export const progressSdShare = 0.5

export const progressChoice: EvidenceSource = {
  id: 'inner-ear-progress',
  citation:
    'The inner ear is taken to lose what the median of ISO 7029 loses between the two ages, with half of that as SD for one ear: a diseased ear may lose more',
  status: 'assumption',
}

/** By how much thresholds grow worse, dB; no entry at frequencies that the norm does not have. */
export interface Progress {
  readonly edition: Iso7029Edition
  readonly addedDb: ReadonlyMap<FrequencyHz, number>
}

export type ProgressRefusal =
  | { readonly code: 'age-not-known' }
  | { readonly code: 'age-outside-norm'; readonly youngest: number; readonly oldest: number }

export type ProgressOutcome =
  | { readonly ok: true; readonly progress: Progress }
  | { readonly ok: false; readonly refusal: ProgressRefusal }

/**
 * What the median of the patient's age and sex loses in so many years, ISO 7029, dB.
 * @param years 0 to 30
 * @param edition 2017 by default, which ends at 80 years
 * @returns a refusal when age and sex are not known, or an age is outside the edition
 * @throws RangeError for years out of domain
 * Source: `iso7029Editions`; applying the median to one ear is `progressChoice`.
 * Checked by: tests/published/iso-7029-progress.test.ts
 */
export function innerEarProgress(
  patient: Patient | undefined,
  years: number,
  edition: Iso7029Edition = '2017',
): ProgressOutcome {
  requireWithin('years', years, 0, 30, 'years')
  if (patient === undefined) return { ok: false, refusal: { code: 'age-not-known' } }
  const { youngest, oldest } = iso7029Editions[edition]
  const { ageYears, sex } = patient
  if (!(ageYears >= youngest && ageYears + years <= oldest))
    return { ok: false, refusal: { code: 'age-outside-norm', youngest, oldest } }
  const medianAt = (age: number, frequency: FrequencyHz) =>
    isIso7029Frequency(frequency) ? ageNorm({ edition, sex, age }, frequency).median : undefined
  const addedDb = new Map<FrequencyHz, number>()
  for (const frequency of audiometricFrequenciesHz) {
    const now = medianAt(ageYears, frequency)
    const later = medianAt(ageYears + years, frequency)
    if (now !== undefined && later !== undefined) addedDb.set(frequency, Math.max(0, later - now))
  }
  return { ok: true, progress: { edition, addedDb } }
}

/**
 * The audiogram with the progress added, at most 130 dB HL. "No response" keeps its limit: the true threshold was beyond it
 * already. A frequency that the norm does not have keeps its threshold.
 * @throws RangeError when the audiogram is out of domain
 */
export function agedBy({ addedDb }: Progress, audiogram: Audiogram): Audiogram {
  requireAudiogram('audiogram', audiogram)
  return new Map(
    [...audiogram].map(([frequency, threshold]) => [frequency, aged(threshold, addedDb.get(frequency) ?? 0)]),
  )
}

const worstDbHl = 130

function aged(threshold: Threshold, addedDb: number): Threshold {
  if (threshold.kind !== 'heard') return threshold
  return { ...threshold, level: asDbHl(Math.min(worstDbHl, threshold.level + addedDb)) }
}
