import type { FrequencyHz } from '../units/frequencies.ts'
import type { Provenance } from './provenance.ts'

export interface AudiometerLimits extends Provenance {
  readonly air: Readonly<Partial<Record<FrequencyHz, number>>>
  readonly bone: Readonly<Partial<Record<FrequencyHz, number>>>
}

/** Highest hearing levels of a type 1 audiometer in dB HL; a clinic may give those of its own. */
export const typeOneLimits: AudiometerLimits = {
  air: {
    125: 70,
    250: 90,
    500: 120,
    750: 120,
    1000: 120,
    1500: 120,
    2000: 120,
    3000: 120,
    4000: 120,
    6000: 110,
    8000: 100,
  },
  bone: { 250: 45, 500: 60, 750: 70, 1000: 70, 1500: 70, 2000: 70, 3000: 70, 4000: 60 },
  source: 'IEC 60645-1:2017 type 1; ANSI S3.6-2018',
  status: 'from memory, unconfirmed',
}
