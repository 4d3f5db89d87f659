import type { CouplingSite } from '../devices/classes.ts'
import { trustedHz } from '../middle-ear/drive-change.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { forecastFrequenciesHz } from './forecast.ts'
import type { DriveLoss } from './loss-model.ts'
import { middleEarLoss } from './middle-ear-loss.ts'
import { earChangesOf } from './scenario.ts'
import type { ScenarioContext } from './scenario-inputs.ts'

export interface LossAt {
  readonly frequency: FrequencyHz
  readonly loss: DriveLoss
}

/** Outside the trusted band of the network: below 250 Hz and above 4 kHz. */
export const isLowConfidence = (frequency: FrequencyHz): boolean =>
  frequency < trustedHz.low || frequency > trustedHz.high

/**
 * What findings and scenario together take from the drive at a site, by frequency; none where nothing is changed.
 * @throws RangeError when the scenario or a change is out of its domain
 */
export function lossByFrequency(
  { scenario, actuator, found = [], middleEar }: ScenarioContext,
  site: CouplingSite,
): readonly LossAt[] {
  const changes = [...found, ...earChangesOf(scenario)]
  if (changes.length === 0) return []
  const model = middleEarLoss({ changes, actuator, middleEar })
  return forecastFrequenciesHz.map((frequency) => ({ frequency, loss: model.lossAt(site, frequency) }))
}

/** Whether a scenario leaves everything as it was found. */
export const changesNothing = (scenario: ScenarioContext['scenario']): boolean =>
  earChangesOf(scenario).length === 0 && (scenario.innerEarYears ?? 0) === 0
