import type { Audiogram } from '../audiometry/thresholds.ts'
import type { CouplingSite, DeviceClass } from '../devices/classes.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import type { Option } from './profiles.ts'

/** Measured effective gains, dB, of an ear with a device, at a stated visit. */
export interface Outcome {
  readonly deviceClass: DeviceClass
  readonly couplingSite: CouplingSite
  readonly gainDb: ReadonlyMap<FrequencyHz, number>
  /** what this ear was expected to differ by from the group of the evidence, dB; absent: nothing */
  readonly beyondGroupDb?: ReadonlyMap<FrequencyHz, number> | undefined
}

/** An ear of the team's own series. `patient` is a pseudonym: of two ears of one patient only the first counts. */
export interface SeriesOutcome extends Outcome {
  readonly patient: string
}

/** What the team knows beyond publications. The series leaves out the patient of the forecast. */
export interface Experience {
  readonly otherEar?: Outcome | undefined
  readonly series: readonly SeriesOutcome[]
}

/** Effective gain where both thresholds were heard, dB; "no response" is no number and is left out. */
export function measuredGains(ear: {
  readonly bone: Audiogram
  readonly aided: Audiogram
}): ReadonlyMap<FrequencyHz, number> {
  const gains = new Map<FrequencyHz, number>()
  for (const [frequency, bone] of ear.bone) {
    const aided = ear.aided.get(frequency)
    if (bone.kind === 'heard' && aided?.kind === 'heard') gains.set(frequency, bone.level - aided.level)
  }
  return gains
}

type SiteFamily = 'incus' | 'oval-window' | 'round-window' | 'skull'

/** Sites that drive the same part of the ear. Common practice, no source. */
const familyOf: { readonly [S in CouplingSite]: SiteFamily } = {
  'incus-long-process': 'incus',
  'incus-body': 'incus',
  'stapes-head': 'oval-window',
  'oval-window': 'oval-window',
  'round-window': 'round-window',
  skull: 'skull',
}

export const isOfSameKind = (a: Option, b: Option): boolean =>
  a.deviceClass === b.deviceClass && familyOf[a.couplingSite] === familyOf[b.couplingSite]

/** Ears of the series with this option, one a patient. */
export function earsWith({ deviceClass, couplingSite }: Option, { series }: Experience): readonly SeriesOutcome[] {
  const first = new Map<string, SeriesOutcome>()
  for (const outcome of series)
    if (outcome.deviceClass === deviceClass && outcome.couplingSite === couplingSite && !first.has(outcome.patient))
      first.set(outcome.patient, outcome)
  return [...first.values()]
}
