import type { Sealer } from '../../lib/board/sealer.ts'
import { deviceProfiles } from '../../lib/forecast/profiles.ts'
import { answerAnew, sealAnew } from '../../lib/forecast/seal-anew.ts'

/** Computes again what is sealed, from the same functions and profiles as the pages. */
export const sealer: Sealer = { profiles: deviceProfiles, forecast: sealAnew, scenario: answerAnew }
