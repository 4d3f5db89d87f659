import type { Audiogram } from '../audiometry/thresholds.ts'
import type { CouplingSite, DeviceClass } from '../devices/classes.ts'
import type { Pathology } from '../devices/pathology.ts'
import type { SealedQuantity } from '../devices/sealed-numbers.ts'
import type { Ear } from '../units/frequencies.ts'

/** When something was measured; the order is that of time, `unscheduled` apart. */
export const seriesOccasions = [
  'before',
  'first-fitting',
  '1-month',
  '3-months',
  '6-months',
  '12-months',
  'yearly',
  'unscheduled',
] as const
export type SeriesOccasion = (typeof seriesOccasions)[number]

export type SeriesForecast = SealedQuantity

type OssicleState = 'mobile' | 'stiff' | 'fixed' | 'eroded' | 'missing' | 'not-known'

/** The operated ear of a case: what was planned for it, and what was measured of it on which occasion. */
export interface SeriesCase {
  readonly id: string
  /** pseudonym in small letters: ears with the same one are taken for ears of one patient */
  readonly patient: string
  readonly ear: Ear
  readonly deviceClass: DeviceClass | null
  readonly couplingSite: CouplingSite | null
  readonly pathology: Pathology | null
  readonly malleus: OssicleState | null
  readonly incus: OssicleState | null
  readonly stapes: OssicleState | null
  /** calendar day */
  readonly operatedOn: string | null
  readonly tags: readonly string[]
  /** aided threshold in the mean of four tones, of the forecast that stood at the operation */
  readonly forecast: SeriesForecast | undefined
  /** `before` first, then in the order of time */
  readonly visits: readonly SeriesVisit[]
}

export interface SeriesVisit {
  readonly visit: string
  readonly occasion: SeriesOccasion
  readonly year: number | undefined
  readonly on: string | undefined
  readonly air: Audiogram
  readonly bone: Audiogram
  readonly soundField: Audiogram
  readonly aided: Audiogram
  readonly wordsPercent: number | undefined
}

export const chainStates = ['mobile', 'fixed', 'interrupted', 'not-known'] as const
/** The chain in one word: `fixed` where a bone is fixed or stiff, `interrupted` where one is eroded or missing and none fixed. */
export type ChainState = (typeof chainStates)[number]

export function chainStateOf({ malleus, incus, stapes }: Pick<SeriesCase, 'malleus' | 'incus' | 'stapes'>): ChainState {
  const bones = [malleus, incus, stapes]
  if (bones.some((state) => state === 'fixed' || state === 'stiff')) return 'fixed'
  if (bones.some((state) => state === 'eroded' || state === 'missing')) return 'interrupted'
  return bones.every((state) => state === 'mobile') ? 'mobile' : 'not-known'
}
