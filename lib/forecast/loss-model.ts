import type { CouplingSite } from '../devices/classes.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import type { DbGain } from '../units/levels.ts'
import { asDbGain } from '../units/levels.ts'
import type { Range } from './distribution.ts'

/** What a change in the ear or at the contact takes from the drive of the cochlea; positive is a loss. */
export interface DriveLoss {
  readonly lossDb: DbGain
  /** standard deviation of that estimate, dB: between ears and of the contact; 0 when nothing is assumed to change */
  readonly sdDb: number
  /** lowest and highest loss by the parameter sets of the ear, dB; absent where fewer than two sets could be asked */
  readonly acrossSetsDb?: Range | undefined
  /** `low`: outside the trusted band of the network, or on an exploratory assumption; absent: nothing was computed */
  readonly confidence?: 'trusted' | 'low' | undefined
  readonly route?: LossRoute | undefined
}

/**
 * How a drive goes to the cochlea: through the chain, past it (a device on the skull, which no change of the chain
 * touches), or not at all (the ossicle is missing or the chain is broken beyond the site).
 */
export type LossRoute = 'through-chain' | 'past-chain' | 'none'

/**
 * Changes against the ears in which the effective gain was measured: fixation, joints, contact, added mass.
 * A forecast asks it for each frequency at the planned site and adds the answer to the aided threshold.
 */
export interface LossModel {
  readonly id: string
  readonly source: EvidenceSource
  lossAt(site: CouplingSite, frequency: FrequencyHz): DriveLoss
}

/** The ear couples as well as the ears of the evidence did. */
export const asInEvidence: LossModel = {
  id: 'as-in-evidence',
  source: {
    id: 'no-change-assumed',
    citation: 'The planned ear is taken to couple as the ears of the evidence did: no loss is added',
    status: 'assumption',
  },
  lossAt: () => ({ lossDb: asDbGain(0), sdDb: 0 }),
}
