import type { CaseHeader } from '../../board/records/case-header.ts'
import { type HearingTest, type Point, placeOfPoint } from '../../board/records/hearing-test.ts'
import { isReception, type SpeechTest } from '../../board/records/speech-test.ts'
import type { Ear } from '../../units/frequencies.ts'
import {
  age,
  audiometryPanel,
  levelUnits,
  supersededExtension,
  systems,
  thresholdCodes,
  thresholdDisplay,
} from './codes.ts'
import type { CodeableConcept, Component, Observation, Quantity } from './resources.ts'

/** How a record refers to others of the same bundle. */
export interface Links {
  readonly subject: string
  /** the Encounter of a visit; undefined for a visit that the bundle does not have */
  encounterOf(visit: string): string | undefined
}

export const own = (system: string, code: string, text = code.replaceAll('-', ' ')): CodeableConcept => ({
  coding: [{ system, code, display: text }],
  text,
})

export const earSite = (ear: SpeechTest['ear']): CodeableConcept =>
  own(systems.ear, ear, ear === 'both' ? 'both ears' : `${ear} ear`)

const testCode = (code: string) => own(systems.test, code)

export const decibels = (value: number, unit: string): Quantity => ({ value, unit, system: systems.ucum, code: 'dB' })

/** One Observation a test, one component a threshold. */
export function observationOfTest(test: HearingTest, links: Links): Observation {
  const isPanel = Object.keys(test.points).some((key) => key.startsWith('air.'))
  const local = testCode('audiogram')
  return {
    ...observationBase(
      test,
      links,
      isPanel ? { ...local, coding: [{ system: systems.loinc, ...audiometryPanel }, ...(local.coding ?? [])] } : local,
    ),
    component: [
      ...Object.entries(test.points)
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([key, point]) => thresholdComponent(test.ear, key, point)),
      ...quantity('repeat-at-1000', test.repeatAt1000, levelUnits.hearingLevel),
      ...concept('air-transducer', systems.transducer, test.airTransducer),
      ...concept('bone-transducer', systems.transducer, test.boneTransducer),
      ...words('device', test.device),
    ],
  }
}

function thresholdComponent(ear: Ear, key: string, point: Point): Component {
  const { route, masked, frequency } = placeOfPoint(key)
  const loinc = route === 'air' ? thresholdCodes[ear][frequency] : undefined
  const local = own(systems.test, key, `${route}, ${masked ? 'masked' : 'unmasked'}, ${frequency} Hz`)
  const standard =
    loinc === undefined ? [] : [{ system: systems.loinc, code: loinc, display: thresholdDisplay(ear, frequency) }]
  return { code: { ...local, coding: [...standard, ...(local.coding ?? [])] }, ...thresholdValue(point) }
}

/** No response up to the audiometer's limit is a threshold above that limit; FHIR says it with a comparator. */
function thresholdValue(point: Point): Pick<Component, 'valueQuantity' | 'dataAbsentReason'> {
  switch (point.kind) {
    case 'heard':
      return { valueQuantity: decibels(point.level, levelUnits.hearingLevel) }
    case 'no-response':
      return { valueQuantity: { ...decibels(point.limit, levelUnits.hearingLevel), comparator: '>' } }
    case 'could-not-test':
      return {
        dataAbsentReason: {
          coding: [{ system: systems.dataAbsentReason, code: 'not-performed', display: 'Not Performed' }],
          text: 'could not test',
        },
      }
    default:
      return point satisfies never
  }
}

export function observationOfSpeechTest(test: SpeechTest, links: Links): Observation {
  const described = [
    ...concept('material', systems.material, test.material),
    ...words('list', test.listName === '' ? undefined : test.listName),
  ]
  if (isReception(test))
    return {
      ...observationBase(test, links, testCode('speech-reception-threshold')),
      valueQuantity: decibels(test.receptionThreshold, levelUnits.hearingLevel),
      component: described,
    }
  const { items = 0, right = 0 } = test
  return {
    ...observationBase(test, links, testCode('word-score')),
    valueQuantity: { value: percent(right, items), unit: '%', system: systems.ucum, code: '%' },
    component: [
      ...described,
      { code: testCode('items'), valueInteger: items },
      { code: testCode('items-right'), valueInteger: right },
      ...quantity('speech-level', test.speechLevel, levelUnits.soundPressure),
      ...quantity('noise-level', test.noiseLevel, levelUnits.soundPressure),
    ],
  }
}

/** To a tenth: what the counts are for is computing, the percentage is for reading. */
const percent = (right: number, items: number): number => Math.round((1000 * right) / Math.max(1, items)) / 10

function observationBase(
  test: HearingTest | SpeechTest,
  { subject, encounterOf }: Links,
  code: CodeableConcept,
): Observation {
  const encounter = test.visit === undefined ? undefined : encounterOf(test.visit)
  return {
    resourceType: 'Observation',
    id: resourceId(test.id),
    identifier: [{ system: systems.record, value: test.id }],
    ...(test.state === 'superseded' ? { extension: [{ url: supersededExtension, valueBoolean: true }] } : {}),
    status: statusOf(test),
    code,
    category: [{ coding: [{ system: systems.observationCategory, code: 'exam', display: 'Exam' }] }],
    subject: { reference: subject },
    ...(encounter === undefined ? {} : { encounter: { reference: encounter } }),
    effectiveDateTime: test.performedOn,
    issued: test.at,
    bodySite: earSite(test.ear),
    method: own(systems.condition, test.condition),
    ...(test.note === '' ? {} : { note: [{ text: test.note }] }),
  }
}

const statusOf = ({ state, verification }: HearingTest | SpeechTest): string =>
  state === 'entered-in-error' ? state : verification === undefined ? 'preliminary' : 'final'

const quantity = (code: string, level: number | undefined, unit: string): Component[] =>
  level === undefined ? [] : [{ code: testCode(code), valueQuantity: decibels(level, unit) }]

const concept = (code: string, system: string, value: string | undefined): Component[] =>
  value === undefined ? [] : [{ code: testCode(code), valueCodeableConcept: own(system, value) }]

const words = (code: string, text: string | undefined): Component[] =>
  text === undefined || text === '' ? [] : [{ code: testCode(code), valueString: text }]

export function observationOfAge(header: CaseHeader, subject: string): Observation[] {
  if (header.ageYears === undefined) return []
  return [
    {
      resourceType: 'Observation',
      id: 'age',
      status: 'final',
      code: { coding: [{ system: systems.loinc, ...age }], text: 'age' },
      subject: { reference: subject },
      issued: header.at,
      valueQuantity: { value: header.ageYears, unit: 'years', system: systems.ucum, code: 'a' },
    },
  ]
}

/** Ids of FHIR are at most 64 characters; a longer one is told by the identifier alone. */
export const resourceId = (id: string): string => id.slice(0, 64)
