import type { FrequencyHz } from '../units/frequencies.ts'
import type { DriveLoss, LossModel } from './loss-model.ts'

/** The same model for one option, asked once a frequency: quantities, means and words all need the same losses. */
export function rememberedLoss(model: LossModel): LossModel {
  const known = new Map<string, DriveLoss>()
  return {
    ...model,
    lossAt(site, frequency: FrequencyHz) {
      const key = `${site} ${frequency}`
      const before = known.get(key)
      if (before !== undefined) return before
      const loss = model.lossAt(site, frequency)
      known.set(key, loss)
      return loss
    },
  }
}
