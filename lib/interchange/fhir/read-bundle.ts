import { RecordId } from '../../board/identity.ts'
import type { TestState } from '../../board/records/hearing-test.ts'
import type { Ear } from '../../units/frequencies.ts'
import { supersededExtension, systems } from './codes.ts'
import type { FhirFileFault, FhirItemFault, PlacedFhirFault } from './faults.ts'
import { type ReadSpeechTest, type ReadTest, readObservation } from './read-observation.ts'
import { type AnyResource, Bundle, codeIn, Encounter, Observation, Patient, Procedure } from './resources.ts'
import { otherVersion } from './version.ts'

/** Far more than one patient's hearing tests: a whole board writes some hundred entries. */
export const fhirLimits = { characters: 5_000_000, entries: 5000 } as const

interface Read<T> {
  readonly entry: number
  readonly resource: string
  /** id of the record that it was written from, if this board or one like it wrote it */
  readonly record: string | undefined
  /** id of the record of the visit that it belongs to */
  readonly visit: string | undefined
  readonly state: TestState
  readonly test: T
}
export type ReadHearing = Read<ReadTest>
export type ReadSpeech = Read<ReadSpeechTest>

export interface FhirReading {
  readonly fileFaults: readonly FhirFileFault[]
  readonly faults: readonly PlacedFhirFault[]
  readonly tests: readonly ReadHearing[]
  readonly speechTests: readonly ReadSpeech[]
  /** pseudonym by which this board's own files name the patient; undefined in files of other systems */
  readonly pseudonym: string | undefined
  readonly operation: { readonly ear: Ear | undefined; readonly day: string | undefined } | undefined
  /** resources that the board has no place for, by type */
  readonly passedOver: ReadonlyMap<string, number>
}

/** What the file is held against. */
export interface FhirPlace {
  readonly pseudonym: string
  /** the day of the operation as this board has it, ISO 8601 */
  readonly operatedOn: string | undefined
  /** the last calendar day that has begun */
  readonly today: string
}

const nothing: FhirReading = {
  fileFaults: [],
  faults: [],
  tests: [],
  speechTests: [],
  pseudonym: undefined,
  operation: undefined,
  passedOver: new Map(),
}
const unreadable = (...fileFaults: FhirFileFault[]): FhirReading => ({ ...nothing, fileFaults })

/** Reads a Bundle of FHIR R4 (JSON). Never throws: each fault says where and what. */
export function readBundle(text: string, place: FhirPlace): FhirReading {
  const { length } = text
  if (length > fhirLimits.characters)
    return unreadable({ code: 'too-long', characters: length, most: fhirLimits.characters })
  const json = parsed(text)
  if (json === undefined) return unreadable({ code: 'not-json' })
  const bundle = Bundle.safeParse(json)
  if (!bundle.success) return unreadable({ code: 'not-a-bundle', found: typeOf(json) })
  const entries = bundle.data.entry ?? []
  if (entries.length > fhirLimits.entries)
    return unreadable({ code: 'too-many-entries', entries: entries.length, most: fhirLimits.entries })
  const resources = entries.flatMap(({ resource }) => resource ?? [])
  const foreign = [bundle.data, ...resources].map(otherVersion).find((version) => version !== undefined)
  if (foreign !== undefined) return unreadable({ code: 'other-version', ...foreign })
  return readEntries(bundle.data, place)
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''))
  } catch {
    return undefined
  }
}

function typeOf(json: unknown): string {
  const type = (json as { resourceType?: unknown } | null)?.resourceType
  return typeof type === 'string' ? type.slice(0, 60) : 'no FHIR resource'
}

function readEntries(bundle: Bundle, place: FhirPlace): FhirReading {
  const placed = (bundle.entry ?? []).map(({ resource, fullUrl }, index) => ({ resource, fullUrl, entry: index + 1 }))
  const patients = placed.filter(({ resource }) => resource?.resourceType === 'Patient')
  const [only] = patients
  if (only === undefined) return unreadable({ code: 'no-patient' })
  if (patients.length > 1) return unreadable({ code: 'several-patients', patients: patients.length })
  const pseudonym = pseudonymOf(only.resource)
  if (pseudonym !== undefined && pseudonym !== place.pseudonym)
    return unreadable({ code: 'wrong-patient', found: pseudonym, expected: place.pseudonym })
  const reader = new EntryReader(place, visitsOf(bundle), namesOf(only))
  for (const { resource, entry } of placed) if (resource !== undefined) reader.read(resource, entry)
  return { ...reader.reading(), pseudonym }
}

function pseudonymOf(resource: AnyResource | undefined): string | undefined {
  const patient = Patient.safeParse(resource)
  if (!patient.success) return undefined
  return patient.data.identifier?.find(({ system }) => system === systems.pseudonym)?.value
}

/** The ways in which other resources may refer to an entry. */
function namesOf({ resource, fullUrl }: { resource: AnyResource | undefined; fullUrl: string | undefined }) {
  const id = resource?.id
  return new Set([fullUrl, typeof id === 'string' ? `${resource?.resourceType}/${id}` : undefined])
}

/** Record ids of the visits, by how an Observation refers to their Encounter. */
function visitsOf({ entry = [] }: Bundle): ReadonlyMap<string, string> {
  const visits = new Map<string, string>()
  for (const { resource, fullUrl } of entry) {
    const encounter = Encounter.safeParse(resource)
    const record = encounter.success ? recordIdOf(encounter.data.identifier) : undefined
    if (record === undefined) continue
    for (const name of namesOf({ resource, fullUrl })) if (name !== undefined) visits.set(name, record)
  }
  return visits
}

function recordIdOf(identifiers: readonly { system?: string | undefined; value?: string | undefined }[] = []) {
  const parsedId = RecordId.safeParse(identifiers.find(({ system }) => system === systems.record)?.value)
  return parsedId.success ? parsedId.data : undefined
}

/** Reads entry by entry and collects what they make. */
class EntryReader {
  private readonly place: FhirPlace
  private readonly visits: ReadonlyMap<string, string>
  private readonly patientNames: ReadonlySet<string | undefined>
  private readonly faults: PlacedFhirFault[] = []
  private readonly tests: ReadHearing[] = []
  private readonly speechTests: ReadSpeech[] = []
  /** single thresholds, by ear and day */
  private readonly gathered = new Map<string, ReadHearing>()
  private readonly passedOver = new Map<string, number>()
  private operation: FhirReading['operation']

  constructor(place: FhirPlace, visits: ReadonlyMap<string, string>, patientNames: ReadonlySet<string | undefined>) {
    this.place = place
    this.visits = visits
    this.patientNames = patientNames
  }

  reading(): Omit<FhirReading, 'pseudonym'> {
    const { faults, speechTests, operation, passedOver } = this
    return {
      fileFaults: [],
      faults,
      tests: [...this.tests, ...this.gathered.values()],
      speechTests,
      operation,
      passedOver,
    }
  }

  read(resource: AnyResource, entry: number): void {
    const type = resource.resourceType
    if (type === 'Patient' || type === 'Encounter' || type === 'Device') return
    if (type === 'Procedure') return this.readProcedure(resource)
    if (type !== 'Observation') return this.passOver(type)
    const observation = Observation.safeParse(resource)
    if (observation.success) return this.readTest(observation.data, entry)
    const [issue] = observation.error.issues
    this.note(resource, entry, {
      code: 'invalid',
      path: issue?.path.join('.') ?? '',
      problem: issue?.message.slice(0, 300) ?? '',
    })
  }

  private readProcedure(resource: AnyResource): void {
    const procedure = Procedure.safeParse(resource)
    if (!procedure.success) return this.passOver('Procedure')
    const ear = codeIn(procedure.data.bodySite?.[0], systems.ear)
    const day = procedure.data.performedDateTime?.slice(0, 10)
    this.operation = { ear: ear === 'right' || ear === 'left' ? ear : undefined, day }
  }

  private readTest(observation: Observation, entry: number): void {
    const { reference } = observation.subject ?? {}
    if (reference !== undefined && !this.patientNames.has(reference))
      return this.note(observation, entry, { code: 'other-patient', reference: reference.slice(0, 120) })
    const reading = readObservation(observation)
    const at = {
      entry,
      resource: nameOf(observation),
      record: recordIdOf(observation.identifier),
      visit: this.visits.get(observation.encounter?.reference ?? ''),
      state: stateOf(observation),
    }
    switch (reading.kind) {
      case 'passed-over':
        return this.passOver('Observation')
      case 'fault':
        return this.note(observation, entry, reading.fault)
      case 'test':
        for (const test of reading.tests)
          if (this.isPossible(test, at.visit, observation, entry)) this.tests.push({ ...at, test })
        return
      case 'threshold':
        if (this.isPossible(reading.test, at.visit, observation, entry))
          this.gather({ ...at, test: reading.test }, observation)
        return
      case 'speech':
        if (this.isPossible(reading.test, at.visit, observation, entry))
          this.speechTests.push({ ...at, test: reading.test })
        return
      default:
        reading satisfies never
    }
  }

  private isPossible(
    { performedOn: day }: ReadTest | ReadSpeechTest,
    visit: string | undefined,
    observation: Observation,
    entry: number,
  ): boolean {
    const { today, operatedOn } = this.place
    if (day > today) this.note(observation, entry, { code: 'day-in-future', day })
    else if (visit !== undefined && operatedOn !== undefined && day < operatedOn)
      this.note(observation, entry, { code: 'before-operation', day, operated: operatedOn })
    else return true
    return false
  }

  private gather(read: ReadHearing, observation: Observation): void {
    const key = `${read.test.ear} ${read.test.performedOn}`
    const other = this.gathered.get(key)
    if (other === undefined) {
      this.gathered.set(key, read)
      return
    }
    const twice = Object.keys(read.test.points).find((point) => Object.hasOwn(other.test.points, point))
    if (twice === undefined)
      this.gathered.set(key, {
        ...other,
        test: { ...other.test, points: { ...other.test.points, ...read.test.points } },
      })
    else this.note(observation, read.entry, { code: 'point-twice', point: twice })
  }

  private note(resource: AnyResource | Observation, entry: number, fault: FhirItemFault): void {
    this.faults.push({ entry, resource: nameOf(resource), fault })
  }

  private passOver(type: string): void {
    this.passedOver.set(type, (this.passedOver.get(type) ?? 0) + 1)
  }
}

const nameOf = ({ resourceType, id }: AnyResource): string =>
  typeof id === 'string' ? `${resourceType}/${id.slice(0, 64)}` : resourceType

function stateOf({ status, extension = [] }: Observation): TestState {
  if (status === 'entered-in-error') return 'entered-in-error'
  return extension.some(({ url }) => url === supersededExtension) ? 'superseded' : 'current'
}
