import type { DriveLoss } from './loss-model.ts'

/**
 * Standard deviation that stands for the choice of the model, dB: half the range of the loss over the parameter sets; 0
 * where nothing changes or the loss was not computed with several sets.
 * Half the range of three values is 0.85 of their expected standard deviation, were they drawn from a normal (expected
 * range of three: 1.693 SD, Tippett, Biometrika 17:364-387, 1925). Three models are no sample, so the simpler rule
 * stands. Status: assumption.
 */
export function modelSdDb({ acrossSetsDb }: DriveLoss): number {
  return acrossSetsDb === undefined ? 0 : (acrossSetsDb.high - acrossSetsDb.low) / 2
}
