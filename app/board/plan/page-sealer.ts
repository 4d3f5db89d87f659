import type { Sealer } from '@/lib/board/sealer.ts'
import { deviceProfiles } from '@/lib/forecast/profiles.ts'
import { answerAnew, sealAnew } from '@/lib/forecast/seal-anew.ts'

/** Computes what is sealed here as the server computes it again before it takes it. */
export const sealer: Sealer = { profiles: deviceProfiles, forecast: sealAnew, scenario: answerAnew }
