import type { Audiogram } from '../audiometry/thresholds.ts'
import type { CouplingSite, DeviceClass } from '../devices/classes.ts'
import type { DeviceProfile } from '../devices/device-profile.ts'
import type { Ear, FrequencyHz } from '../units/frequencies.ts'
import type { Experience } from './experience.ts'
import type { LossModel } from './loss-model.ts'

export type OssicleState = 'mobile' | 'stiff' | 'fixed' | 'eroded' | 'missing' | 'not-known'

/** As much of a plan as a forecast needs; what is not decided yet is absent. */
export interface ForecastPlan {
  readonly ear: Ear
  readonly deviceClass?: DeviceClass | undefined
  readonly couplingSite?: CouplingSite | undefined
  readonly malleus: OssicleState
  readonly incus: OssicleState
  readonly stapes: OssicleState
}

/** Words right of words presented: monosyllables in quiet without a device, at a level in dB SPL. */
export interface UnaidedWordScore {
  readonly right: number
  readonly items: number
  readonly levelDbSpl: number
}

/** Current tests of the planned ear. */
export interface EarTests {
  readonly air: Audiogram
  readonly bone: Audiogram
  /** loudspeaker without a device */
  readonly soundField?: Audiogram | undefined
  readonly unaidedWords: readonly UnaidedWordScore[]
}

export interface ForecastInputs {
  readonly plan: ForecastPlan | undefined
  /** absent: no current unaided test of the planned ear */
  readonly tests: EarTests | undefined
  readonly profiles: readonly DeviceProfile[]
  readonly loss: LossModel
  /** the team's series and the patient's other ear; absent: published evidence alone */
  readonly experience?: Experience | undefined
}

/** Why there is no forecast, with the facts that a sentence needs. */
export type ForecastRefusal =
  | { readonly code: 'no-plan' }
  | { readonly code: 'no-device-class' }
  | { readonly code: 'no-coupling-site'; readonly deviceClass: DeviceClass }
  | { readonly code: 'no-profile'; readonly deviceClass: DeviceClass; readonly couplingSite: CouplingSite }
  | { readonly code: 'ossicle-missing'; readonly couplingSite: CouplingSite; readonly ossicle: 'incus' | 'stapes' }
  /** the changes of the ear leave no way from the site to the inner ear */
  | { readonly code: 'drive-interrupted'; readonly couplingSite: CouplingSite }
  | { readonly code: 'no-current-test'; readonly ear: Ear }
  | { readonly code: 'no-bone-thresholds'; readonly ear: Ear; readonly frequencies: readonly FrequencyHz[] }
  | { readonly code: 'beyond-working-range'; readonly boneMeanDbHl: number; readonly maximumOutputDbHl: number }
