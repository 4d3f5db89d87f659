import type { Provenance } from '../audiometry/provenance.ts'

/** A statistical method that the screen names under "how computed". */
export interface SeriesMethod extends Provenance {
  readonly id: string
}

/** An estimate with its confidence limits, in the unit of the data. */
export interface Estimate {
  readonly value: number
  readonly low: number
  readonly high: number
  readonly confidence: number
  readonly method: SeriesMethod
}
