import type { CouplingSite, DeviceClass } from '../devices/classes.ts'
import { DeviceProfile } from '../devices/device-profile.ts'
import { activeMiddleEarImplant } from './profiles/active-middle-ear-implant.ts'
import { activeTranscutaneous, passiveTranscutaneous, percutaneous } from './profiles/bone-conduction.ts'

/** The profiles that come with the board, held against their schema when the file is loaded. */
export const deviceProfiles: readonly DeviceProfile[] = [
  activeMiddleEarImplant,
  activeTranscutaneous,
  passiveTranscutaneous,
  percutaneous,
].map((profile) => DeviceProfile.parse(profile))

/** A device class at a coupling site. */
export interface Option {
  readonly deviceClass: DeviceClass
  readonly couplingSite: CouplingSite
}

/** Every class at every site for which the profiles hold evidence, in the order of the profiles. */
export const optionsOf = (profiles: readonly DeviceProfile[]): readonly Option[] =>
  profiles.flatMap(({ deviceClass, couplings }) =>
    couplings.flatMap(({ sites }) => sites.map((couplingSite) => ({ deviceClass, couplingSite }))),
  )
