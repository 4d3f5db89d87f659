import type * as Y from 'yjs'
import type { DeviceOption } from '../../devices/classes.ts'
import type { DeviceProfile } from '../../devices/device-profile.ts'
import type { Actuator } from '../../devices/drives.ts'
import type { Scenario } from '../../devices/scenario.ts'
import { firstDifference } from '../first-difference.ts'
import { onlyId, type RecordId } from '../identity.ts'
import { readRecord, readTable } from '../reading.ts'
import type { ForecastRecord } from '../records/sealed-record.ts'
import { assumedOf, type RecordNow, requestOf, type Sealer } from '../sealer.ts'
import { addRecord, type Content, changeRecord, type Pen, removeRecord } from './writing.ts'

export function measureFit(doc: Y.Doc, pen: Pen, content: Content<'fitMeasurements'>): RecordId {
  return addRecord(doc, pen, 'fitMeasurements', content)
}

type Fields = Omit<Content<'fitMeasurements'>, 'ear'>
type FitPatch = { readonly [F in keyof Fields]?: Fields[F] | undefined }

/** Corrects a measurement; `undefined` takes what is optional away. A distance of the other ear is a new one. */
export function changeFitMeasurement(doc: Y.Doc, id: RecordId, patch: FitPatch): void {
  changeRecord(doc, 'fitMeasurements', id, patch)
}

export function removeFitMeasurement(doc: Y.Doc, id: RecordId): void {
  removeRecord(doc, 'fitMeasurements', id)
}

/** Enters the team's own profile. A correction is entered again with a higher version. */
export function enterProfile(doc: Y.Doc, pen: Pen, profile: DeviceProfile): RecordId {
  return addRecord(doc, pen, 'profiles', { profile })
}

/** Written, or why there is nothing to write: no plan, or the code of what stands against the forecast. */
export type Sealing = { readonly ok: true; readonly id: RecordId } | { readonly ok: false; readonly reason: string }

export interface NewScenario {
  readonly title: string
  readonly option: DeviceOption
  readonly profile: DeviceProfile
  readonly scenario: Scenario
  readonly actuator: Actuator
  readonly question?: RecordId | undefined
  readonly supersedes?: RecordId | undefined
}

/** Freezes a "what if" of the planned ear as it stands, with its answer in numbers. */
export function freezeScenario(doc: Y.Doc, pen: Pen, sealer: Sealer, wanted: NewScenario): Sealing {
  const now = recordNow(doc)
  const { option, profile, title, question, supersedes } = wanted
  const assumed = now && assumedOf(now, wanted)
  if (now === undefined || assumed === undefined) return { ok: false, reason: 'no-plan' }
  const computed = sealer.scenario({ ...requestOf(now, option, profile, assumed), assumed })
  if (!computed.ok) return { ok: false, reason: computed.refusal.code }
  const id = addRecord(doc, pen, 'scenarios', {
    title,
    content: computed.content,
    answer: computed.answer,
    ...(question === undefined ? {} : { question }),
    ...(supersedes === undefined ? {} : { supersedes }),
  })
  return { ok: true, id }
}

export interface NewForecast {
  readonly option: DeviceOption
  readonly profile: DeviceProfile
  /** what drives the ear, if the plan says that it differs; a frozen scenario brings its own */
  readonly actuator: Actuator
  /** the frozen scenario under which it holds; absent: the ear as the plan describes it */
  readonly scenario?: RecordId | undefined
}

/** Seals a forecast of the planned ear for good. It follows the one before it of the same ear, option and scenario. */
export function sealForecast(doc: Y.Doc, pen: Pen, sealer: Sealer, wanted: NewForecast): Sealing {
  const now = recordNow(doc)
  if (now === undefined) return { ok: false, reason: 'no-plan' }
  const { option, profile, actuator, scenario } = wanted
  const frozen = scenario === undefined ? undefined : readRecord(doc, 'scenarios', scenario)
  if (scenario !== undefined && frozen === undefined) return { ok: false, reason: 'no-scenario' }
  const assumed = assumedOf(now, frozen?.content.scenario ?? { actuator })
  const computed = sealer.forecast(requestOf(now, option, profile, assumed))
  if (!computed.ok) return { ok: false, reason: computed.refusal.code }
  const { content } = computed
  const earlier = standingForecast(readTable(doc, 'forecasts'), { ear: content.inputs.ear, option, scenario })
  const id = addRecord(doc, pen, 'forecasts', {
    content,
    ...(scenario === undefined ? {} : { scenario }),
    ...(earlier === undefined ? {} : { follows: earlier.id }),
  })
  return { ok: true, id }
}

interface Line {
  readonly ear: RecordNow['plan']['ear']
  readonly option: DeviceOption
  readonly scenario?: RecordId | undefined
}

/** The sealed forecast that counts: the last one of its ear, option and scenario. */
export function standingForecast(
  forecasts: readonly ForecastRecord[],
  { ear, option, scenario }: Line,
): ForecastRecord | undefined {
  const followed = new Set(forecasts.map(({ follows }) => follows))
  return forecasts.find(
    (sealed) =>
      sealed.content.inputs.ear === ear &&
      sealed.scenario === scenario &&
      !followed.has(sealed.id) &&
      firstDifference(sealed.content.option, option) === undefined,
  )
}

function recordNow(doc: Y.Doc): RecordNow | undefined {
  const plan = readRecord(doc, 'plan', onlyId)
  if (plan === undefined) return undefined
  const header = readRecord(doc, 'header', onlyId)
  return { plan, header, tests: readTable(doc, 'tests'), speechTests: readTable(doc, 'speechTests') }
}
