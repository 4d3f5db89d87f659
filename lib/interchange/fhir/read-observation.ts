import type * as z from 'zod/mini'
import { CalendarDay, textLimits } from '../../board/identity.ts'
import {
  HearingTest,
  type Point,
  PointKey,
  placeOfPoint,
  pointKey,
  routesOf,
  TestCondition,
} from '../../board/records/hearing-test.ts'
import { SpeechTest } from '../../board/records/speech-test.ts'
import { Ear } from '../../units/frequencies.ts'
import { audiometryPanel, levelUnits, systems, thresholdOfCode } from './codes.ts'
import type { FhirItemFault } from './faults.ts'
import { type Component, codeIn, type Observation, type Quantity } from './resources.ts'

/** A hearing test as it was read, not yet a record: who enters it and when is for the import to say. */
export type ReadTest = Pick<
  HearingTest,
  | 'ear'
  | 'condition'
  | 'performedOn'
  | 'airTransducer'
  | 'boneTransducer'
  | 'device'
  | 'points'
  | 'repeatAt1000'
  | 'note'
>
export type ReadSpeechTest = Pick<
  SpeechTest,
  | 'ear'
  | 'condition'
  | 'performedOn'
  | 'material'
  | 'listName'
  | 'items'
  | 'right'
  | 'speechLevel'
  | 'noiseLevel'
  | 'receptionThreshold'
  | 'note'
>

export type ObservationReading =
  | { readonly kind: 'test'; readonly tests: readonly ReadTest[] }
  /** a single threshold by air conduction: those of one ear and day make a test */
  | { readonly kind: 'threshold'; readonly test: ReadTest }
  | { readonly kind: 'speech'; readonly test: ReadSpeechTest }
  | { readonly kind: 'passed-over' }
  | { readonly kind: 'fault'; readonly fault: FhirItemFault }

/** What is wrong with one resource; caught where the resource is read. */
class Fault extends Error {
  readonly fault: FhirItemFault
  constructor(fault: FhirItemFault) {
    super(fault.code)
    this.fault = fault
  }
}

/** Reads an Observation of R4 as a test of the board. One that is about something else is passed over. */
export function readObservation(observation: Observation): ObservationReading {
  try {
    return readKind(observation)
  } catch (error) {
    if (error instanceof Fault) return { kind: 'fault', fault: error.fault }
    throw error
  }
}

function readKind(observation: Observation): ObservationReading {
  const ownCode = codeIn(observation.code, systems.test)
  if (ownCode === 'word-score' || ownCode === 'speech-reception-threshold')
    return { kind: 'speech', test: readSpeech(observation, ownCode) }
  const isTest =
    ownCode === 'audiogram' ||
    codeIn(observation.code, systems.loinc) === audiometryPanel.code ||
    (observation.component ?? []).some((component) => thresholdPlace(component) !== undefined)
  if (isTest) return { kind: 'test', tests: readTests(observation) }
  const single = thresholdPlace(observation)
  if (single === undefined) return { kind: 'passed-over' }
  const ear = earOf(observation, single.ear)
  return { kind: 'threshold', test: testOf(observation, ear, [[single.key, pointOf(observation)]]) }
}

/** Where a threshold belongs: our own code says route and masking, a LOINC code ear and frequency by air, unmasked. */
function thresholdPlace({ code }: Pick<Component, 'code'>): { ear: Ear | undefined; key: string } | undefined {
  const own = PointKey.safeParse(codeIn(code, systems.test))
  const loinc = thresholdOfCode(codeIn(code, systems.loinc) ?? '')
  if (own.success) return { ear: loinc?.ear, key: own.data }
  if (loinc === undefined) return undefined
  return { ear: loinc.ear, key: pointKey({ route: 'air', masked: false, frequency: loinc.frequency }) }
}

/** One test for each ear that the thresholds belong to: some systems put both ears into one panel. */
function readTests(observation: Observation): ReadTest[] {
  const byEar = new Map<Ear, [string, Point][]>()
  const { component = [] } = observation
  for (const each of component) {
    const place = thresholdPlace(each)
    if (place === undefined) continue
    const ear = earOf(observation, place.ear)
    byEar.set(ear, [...(byEar.get(ear) ?? []), [place.key, pointOf(each)]])
  }
  if (byEar.size === 0) byEar.set(earOf(observation, undefined), [])
  return [...byEar].map(([ear, points]) => testOf(observation, ear, points))
}

function testOf(observation: Observation, ear: Ear, points: readonly [string, Point][]): ReadTest {
  const seen: Record<string, Point> = {}
  for (const [key, point] of points) {
    if (Object.hasOwn(seen, key)) throw new Fault({ code: 'point-twice', point: key })
    seen[key] = point
  }
  const part = partsOf(observation)
  const condition = conditionOf(observation, Object.keys(seen))
  const test = {
    ear,
    condition,
    performedOn: dayOf(observation),
    ...optional('airTransducer', part.code('air-transducer', systems.transducer)),
    ...optional('boneTransducer', part.code('bone-transducer', systems.transducer)),
    ...optional('device', part.text('device')),
    ...optional('repeatAt1000', part.level('repeat-at-1000', levelUnits.hearingLevel)),
    points: seen,
    note: noteOf(observation),
  }
  return checked(HearingTest, { ...unsigned, origin: 'imported', ...test }, test) as ReadTest
}

function readSpeech(observation: Observation, kind: 'word-score' | 'speech-reception-threshold'): ReadSpeechTest {
  const part = partsOf(observation)
  const site = codeIn(observation.bodySite, systems.ear)
  const ear = site === 'both' ? site : earOf(observation, undefined)
  const common = {
    ear,
    condition: conditionOf(observation, []),
    performedOn: dayOf(observation),
    material: part.code('material', systems.material),
    listName: part.text('list') ?? '',
    note: noteOf(observation),
  }
  const test =
    kind === 'speech-reception-threshold'
      ? { ...common, receptionThreshold: levelOf(observation.valueQuantity, levelUnits.hearingLevel) }
      : {
          ...common,
          ...optional('items', part.count('items')),
          ...optional('right', part.count('items-right')),
          ...optional('speechLevel', part.level('speech-level', levelUnits.soundPressure)),
          ...optional('noiseLevel', part.level('noise-level', levelUnits.soundPressure)),
        }
  return checked(SpeechTest, { ...unsigned, ...test }, test) as ReadSpeechTest
}

/** Holds what was read against the schema of the record that it would become. */
function checked(schema: z.ZodMiniType, record: object, test: object): unknown {
  const parsed = schema.safeParse(record)
  if (parsed.success) return test
  const [issue] = parsed.error.issues
  throw new Fault({
    code: 'invalid',
    path: issue?.path.join('.') ?? '',
    problem: issue?.message.slice(0, textLimits.short) ?? '',
  })
}

/** Stamp of nobody, so that the schema of the whole record can be asked. */
const unsigned = { id: 'read', author: 'nobody', at: '2000-01-01T00:00:00.000Z', state: 'current' } as const

const optional = <K extends string, V>(key: K, value: V | undefined): Partial<Record<K, V>> =>
  value === undefined ? {} : ({ [key]: value } as Record<K, V>)

function partsOf({ component = [] }: Observation) {
  const find = (code: string) => component.find((each) => codeIn(each.code, systems.test) === code)
  return {
    code: (code: string, system: string) => codeIn(find(code)?.valueCodeableConcept, system),
    text: (code: string) => find(code)?.valueString,
    count: (code: string) => find(code)?.valueInteger,
    level: (code: string, unit: string) => {
      const found = find(code)
      return found === undefined ? undefined : levelOf(found.valueQuantity, unit)
    },
  }
}

/** By the code of the threshold and by the body site; where both speak they have to agree. */
function earOf(observation: Observation, said: Ear | undefined): Ear {
  const site = siteOf(observation)
  if (said !== undefined && site !== undefined && said !== site) throw new Fault({ code: 'wrong-ear', said, site })
  const ear = said ?? site
  if (ear === undefined) throw new Fault({ code: 'no-ear' })
  return ear
}

function siteOf({ bodySite }: Observation): Ear | undefined {
  const own = Ear.safeParse(codeIn(bodySite, systems.ear))
  if (own.success) return own.data
  const words = [bodySite?.text, ...(bodySite?.coding ?? []).map(({ display }) => display)].join(' ').toLowerCase()
  const sides = (['right', 'left'] as const).filter((side) => words.includes(side))
  return sides.length === 1 ? sides[0] : undefined
}

function dayOf({ effectiveDateTime = '' }: Observation): string {
  const day = CalendarDay.safeParse(effectiveDateTime.slice(0, 10))
  if (!day.success) throw new Fault({ code: 'no-day' })
  return day.data
}

/** As our own method says; otherwise by the routes of the points, unaided where nothing is said. */
function conditionOf({ method }: Observation, keys: readonly string[]): TestCondition {
  const own = TestCondition.safeParse(codeIn(method, systems.condition))
  if (own.success) return own.data
  const routes = keys.map((key) => placeOfPoint(key).route)
  const fitting = TestCondition.options.find((each) =>
    routes.every((route) => (routesOf[each] as readonly string[]).includes(route)),
  )
  return fitting ?? 'unaided'
}

const noteOf = ({ note = [] }: Observation): string => note.map(({ text }) => text).join('\n')

function pointOf({ valueQuantity, dataAbsentReason }: Pick<Component, 'valueQuantity' | 'dataAbsentReason'>): Point {
  if (valueQuantity === undefined && dataAbsentReason !== undefined) return { kind: 'could-not-test' }
  const level = levelOf(valueQuantity, levelUnits.hearingLevel)
  const isBeyond = valueQuantity?.comparator === '>' || valueQuantity?.comparator === '>='
  return (isBeyond ? { kind: 'no-response', limit: level } : { kind: 'heard', level }) as Point
}

/** A hearing level may be written as plain dB, since the code says what was measured; a sound pressure level may not. */
function levelOf(quantity: Quantity | undefined, expected: string): number {
  if (quantity?.value === undefined) throw new Fault({ code: 'no-value' })
  const unit = (quantity.unit ?? quantity.code ?? '').trim()
  if (unit === '') throw new Fault({ code: 'no-unit' })
  const plain = unit.toLowerCase().replaceAll(/[\s_[\]()]+/g, '')
  const accepted = expected === levelUnits.hearingLevel ? ['db', 'dbhl'] : ['dbspl']
  if (!accepted.includes(plain)) throw new Fault({ code: 'wrong-unit', unit: unit.slice(0, 40), expected })
  return quantity.value
}
