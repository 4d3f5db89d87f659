import type { Actuator } from '../devices/drives.ts'
import type { EarChange } from '../devices/ear-changes.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { Patient, Scenario } from '../devices/scenario.ts'
import type { MiddleEar } from '../middle-ear/drive-change.ts'
import {
  agedBy,
  innerEarProgress,
  type Progress,
  type ProgressRefusal,
  progressChoice,
  progressSdShare,
} from './aged-bone.ts'
import { type Contradiction, contradictionIn } from './findings.ts'
import type { EarTests, ForecastInputs } from './inputs.ts'
import type { LossModel } from './loss-model.ts'
import { middleEarLoss } from './middle-ear-loss.ts'
import { contactChoice, earChangesOf } from './scenario.ts'

export interface ScenarioContext {
  readonly scenario: Scenario
  readonly actuator: Actuator
  /** how the ear differs already, before anything of the scenario happens */
  readonly found?: readonly EarChange[] | undefined
  /** one network for all options and scenarios of a case */
  readonly middleEar: MiddleEar
  /** needed where the inner ear ages */
  readonly patient?: Patient | undefined
}

/** Why nothing can be computed under a scenario. */
export type ScenarioRefusal = ProgressRefusal | Contradiction

export type ScenarioInputs =
  | { readonly ok: true; readonly inputs: ForecastInputs }
  | { readonly ok: false; readonly refusal: ScenarioRefusal }

/**
 * The inputs of a forecast under a scenario: the loss of its changes on top of what was found, and thresholds after the years by which the inner
 * ear ages. Both what is uncertain of the changes and of the progress enters as scenario.
 *
 * The unaided thresholds age too, but do not follow a fixation: the functional gain of a scenario is against the chain as
 * it was tested.
 * @returns a refusal where findings and scenario cannot all be true, or where the norm does not reach the age
 * @throws RangeError when the scenario is out of its domain
 */
export function scenarioInputs(inputs: ForecastInputs, context: ScenarioContext): ScenarioInputs {
  const { scenario, actuator, found = [], middleEar, patient } = context
  const assumed = earChangesOf(scenario)
  const contradiction = inputs.plan && contradictionIn(inputs.plan, found, assumed)
  if (contradiction !== undefined) return { ok: false, refusal: contradiction }
  const changes = [...found, ...assumed]
  const ofChanges = changes.length === 0 ? inputs.loss : middleEarLoss({ changes, actuator, middleEar })
  const hasContact = changes.some(({ kind }) => kind === 'contact-loss')
  const loss = hasContact ? reserved(ofChanges, contactChoice) : ofChanges
  const years = scenario.innerEarYears ?? 0
  if (years === 0) return { ok: true, inputs: { ...inputs, loss } }
  const outcome = innerEarProgress(patient, years)
  if (!outcome.ok) return outcome
  const { progress } = outcome
  const tests = inputs.tests && agedTests(inputs.tests, progress)
  return { ok: true, inputs: { ...inputs, tests, loss: withProgress(loss, progress) } }
}

const agedTests = (tests: EarTests, progress: Progress): EarTests => ({
  ...tests,
  air: agedBy(progress, tests.air),
  bone: agedBy(progress, tests.bone),
  soundField: tests.soundField && agedBy(progress, tests.soundField),
})

/** The model with what a scenario assumes beyond it among its reservations. */
const reserved = (loss: LossModel, { citation }: EvidenceSource): LossModel => {
  const { reservation } = loss.source
  return {
    ...loss,
    source: { ...loss.source, reservation: reservation === undefined ? citation : `${reservation}; ${citation}` },
    lossAt: (site, frequency) => loss.lossAt(site, frequency),
  }
}

/** How much an ear ages is no loss of drive, but as unsure as one. */
const withProgress = (loss: LossModel, { addedDb }: Progress): LossModel => ({
  ...reserved(loss, progressChoice),
  lossAt(site, frequency) {
    const given = loss.lossAt(site, frequency)
    return { ...given, sdDb: Math.hypot(given.sdDb, progressSdShare * (addedDb.get(frequency) ?? 0)) }
  },
})
