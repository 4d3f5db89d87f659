import type { SealedAnswer } from '../devices/sealed-answer.ts'
import type { SealedForecast, SealedScenario } from '../devices/sealed-forecast.ts'
import { earliestOperationDay } from './day-of-operation.ts'
import { firstDifference, withinRounding } from './first-difference.ts'
import { onlyId } from './identity.ts'
import type { HearingTest } from './records/hearing-test.ts'
import type { ForecastRecord } from './records/sealed-record.ts'
import { type Refusal, refusal } from './refusals.ts'
import type { Change, TableView } from './rules.ts'
import { assumedOf, profileOf, type RecordNow, requestOf, type Sealer } from './sealer.ts'

/** Rules of what is sealed. It is judged when it is made; afterwards nothing can touch it. */

/** A profile is told by its id and version, so nobody enters the same twice, nor one of the board's own. */
export function profileIsNew(
  { id, after }: Change<'profiles'>,
  tables: TableView,
  sealer: Sealer,
): Refusal | undefined {
  if (after === undefined) return undefined
  const { id: name, version } = after.profile
  const others = [...tables.values('profiles')].filter((other) => other.id !== id)
  if (profileOf({ id: name, version }, sealer.profiles, others) === undefined) return undefined
  return refusal('second-profile', `profiles/${id}`, { profile: name, version })
}

export function scenarioFollows({ id, after }: Change<'scenarios'>, tables: TableView): Refusal | undefined {
  if (after?.supersedes === undefined) return undefined
  const path = `scenarios/${id}`
  const earlier = after.supersedes
  if (earlier === id || tables.get('scenarios', earlier) === undefined)
    return refusal('missing-reference', path, { field: 'supersedes', id: earlier })
  for (const other of tables.values('scenarios'))
    if (other.id !== id && other.supersedes === earlier)
      return refusal('already-followed', path, { kind: 'scenarios', id: earlier })
  return undefined
}

/** Forecasts of the same ear, option and scenario stand in one line, so that which of them counts is never a choice. */
export function forecastFollows({ id, after }: Change<'forecasts'>, tables: TableView): Refusal | undefined {
  if (after === undefined) return undefined
  const path = `forecasts/${id}`
  const others = [...tables.values('forecasts')].filter((other) => other.id !== id)
  const earlier = others.find((other) => other.id === after.follows)
  if (after.follows !== undefined && (earlier === undefined || !isOfSameLine(earlier, after)))
    return refusal('missing-reference', path, { field: 'follows', id: after.follows })
  if (earlier !== undefined && others.some(({ follows }) => follows === earlier.id))
    return refusal('already-followed', path, { kind: 'forecasts', id: earlier.id })
  const standing = others.find((other) => other !== earlier && isOfSameLine(other, after) && !isFollowed(other, others))
  return standing && refusal('forecast-not-following', path, { id: standing.id })
}

const isOfSameLine = (a: ForecastRecord, b: ForecastRecord): boolean =>
  a.content.inputs.ear === b.content.inputs.ear &&
  a.scenario === b.scenario &&
  firstDifference(a.content.option, b.content.option) === undefined

const isFollowed = ({ id }: ForecastRecord, others: readonly ForecastRecord[]): boolean =>
  others.some(({ follows }) => follows === id)

/** No forecast of an ear whose result has been measured. */
export function beforeOutcome({ id, after }: Change<'forecasts'>, tables: TableView): Refusal | undefined {
  const outcome = after && outcomeTest(after.content.inputs.ear, tables)
  if (outcome === undefined) return undefined
  const { ear, performedOn } = outcome
  return refusal('forecast-after-outcome', `forecasts/${id}`, { ear, performedOn })
}

/** A test with a device on the day of the operation or later. Before it such tests are trials, or of an earlier device. */
function outcomeTest(ear: HearingTest['ear'], tables: TableView): HearingTest | undefined {
  const operated = earliestOperationDay(tables)
  if (operated === undefined) return undefined
  return [...tables.values('tests')].find(
    (test) =>
      test.ear === ear &&
      test.condition === 'aided' &&
      test.state !== 'entered-in-error' &&
      test.performedOn >= operated,
  )
}

interface Claimed {
  readonly content: SealedForecast
  readonly answer?: SealedAnswer
}

/** The numbers are what the record as it stands gives. Last of the rules, because it costs most. */
export function scenarioComputesAlike(
  { id, after }: Change<'scenarios'>,
  tables: TableView,
  sealer: Sealer,
): Refusal | undefined {
  if (after === undefined) return undefined
  const { content, answer } = after
  return judgeClaim(`scenarios/${id}`, { content, answer }, content.scenario, tables, sealer)
}

export function forecastComputesAlike(
  { id, after }: Change<'forecasts'>,
  tables: TableView,
  sealer: Sealer,
): Refusal | undefined {
  if (after === undefined) return undefined
  const { content, scenario } = after
  const path = `forecasts/${id}`
  if (scenario === undefined)
    return judgeClaim(
      path,
      { content },
      content.scenario && { ...content.scenario, scenario: undefined },
      tables,
      sealer,
    )
  const frozen = tables.get('scenarios', scenario)
  if (frozen === undefined) return refusal('missing-reference', path, { field: 'scenario', id: scenario })
  return judgeClaim(path, { content }, frozen.content.scenario, tables, sealer)
}

type Wanted = Partial<Pick<SealedScenario, 'actuator'>> & { readonly scenario?: SealedScenario['scenario'] | undefined }

function judgeClaim(
  path: string,
  claimed: Claimed,
  wanted: Wanted | undefined,
  tables: TableView,
  sealer: Sealer,
): Refusal | undefined {
  const { option, profile: named } = claimed.content
  const now = recordNow(tables)
  if (now === undefined) return refusal('forecast-stale-inputs', path, { what: 'there is no plan' })
  const profile = profileOf(named, sealer.profiles, tables.values('profiles'))
  if (profile?.deviceClass !== option.deviceClass)
    return differs(path, 'profile', `${named.id}, version ${named.version}`, 'no such profile of this device class')
  const assumed = assumedOf(now, { scenario: wanted?.scenario, actuator: wanted?.actuator ?? 'floating-mass' })
  const request = requestOf(now, option, profile, assumed)
  const computed =
    claimed.answer === undefined || assumed === undefined
      ? sealer.forecast(request)
      : sealer.scenario({ ...request, assumed })
  if (!computed.ok) return refusal('forecast-stale-inputs', path, { what: computed.refusal.code })
  const { ok: _, ...is } = computed
  return judgeInputs(path, claimed.content, is.content) ?? judgeNumbers(path, claimed, is)
}

function judgeInputs(path: string, was: SealedForecast, is: SealedForecast): Refusal | undefined {
  const changed = firstDifference(
    { inputs: was.inputs, scenario: was.scenario },
    { inputs: is.inputs, scenario: is.scenario },
  )
  return changed && refusal('forecast-stale-inputs', path, { what: `${changed.at}: ${changed.is}, not ${changed.was}` })
}

function judgeNumbers(path: string, was: Claimed, is: Claimed): Refusal | undefined {
  const other = firstDifference(was, is, withinRounding)
  return other && differs(path, other.at, other.was, other.is)
}

const differs = (path: string, what: string, sealed: string, computed: string): Refusal =>
  refusal('forecast-differs', path, { what, sealed, computed })

function recordNow(tables: TableView): RecordNow | undefined {
  const plan = tables.get('plan', onlyId)
  if (plan === undefined) return undefined
  return {
    plan,
    header: tables.get('header', onlyId),
    tests: [...tables.values('tests')],
    speechTests: [...tables.values('speechTests')],
  }
}
