import { Fhir } from 'fhir'
import { describe, expect, it } from 'vitest'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { thresholdCodes } from '@/lib/interchange/fhir/codes.ts'
import { importPlan } from '@/lib/interchange/fhir/import-plan.ts'
import { type FhirPlace, readBundle } from '@/lib/interchange/fhir/read-bundle.ts'
import { caseBundle, type FhirCase } from '@/lib/interchange/fhir/write-bundle.ts'
import { recordCode, speechTestCode } from '@/lib/interchange/record-code.ts'
import { sampleRecord } from '../../support/sample-records.ts'

const at = '2026-05-04T10:00:00.000Z'
const sample = <T>(kind: Parameters<typeof sampleRecord>[0], id: string, more: object = {}): T =>
  ({ ...sampleRecord(kind, id, 'ann'), ...more }) as T

const everyPoint = {
  'air.unmasked.125': { kind: 'heard', level: 20 },
  'air.unmasked.1000': { kind: 'heard', level: 55 },
  'air.masked.4000': { kind: 'no-response', limit: 110 },
  'bone.masked.2000': { kind: 'heard', level: 35 },
  'bone.unmasked.4000': { kind: 'could-not-test' },
}
const records: FhirCase = {
  header: [sample('header', 'only', { phase: 'follow-up', operatedOn: '2026-05-03' })],
  plan: [
    sample('plan', 'only', {
      deviceClass: 'active-middle-ear-implant',
      couplingSite: 'round-window',
      approach: 'through the mastoid',
    }),
  ],
  tests: [
    sample('tests', 'test-1', {
      points: everyPoint,
      airTransducer: 'insert',
      boneTransducer: 'bone-mastoid',
      repeatAt1000: 50,
      note: 'quiet room',
      verification: { by: 'ann', at },
    }),
    sample('tests', 'test-2', {
      ear: 'left',
      condition: 'aided',
      performedOn: '2026-05-04',
      device: 'programme 1',
      visit: 'visit-1',
      points: { 'aided.unmasked.2000': { kind: 'heard', level: 30 } },
    }),
    sample('tests', 'test-3', {
      performedOn: '2026-04-02',
      state: 'superseded',
      closing: { by: 'ann', at, reason: 'measured again' },
    }),
  ],
  speechTests: [
    sample('speechTests', 'speech-1', { noiseLevel: 60 }),
    sample('speechTests', 'speech-2', {
      ear: 'both',
      items: undefined,
      right: undefined,
      speechLevel: undefined,
      receptionThreshold: 45,
    }),
  ],
  visits: [sample('visits', 'visit-1', { state: 'held', held: { by: 'ann', at, on: '2026-05-04' } })],
}
const place: FhirPlace = { pseudonym: 'Case Heron', operatedOn: '2026-05-03', today: '2026-05-04' }
const bundle = () => structuredClone(caseBundle(records, at))
const read = (value: unknown, where = place) => readBundle(JSON.stringify(value), where)

/** The bundle with one of its resources changed. */
function changed(type: string, change: (resource: Record<string, unknown>) => void, nth = 0) {
  const copy = bundle()
  const resources = (copy.entry ?? []).flatMap(({ resource }) => (resource?.resourceType === type ? [resource] : []))
  const resource = resources[nth]
  if (resource === undefined) throw new Error(`no ${type}`)
  change(resource)
  return copy
}
/** Index among Observations: the first one is the age. */
const firstTest = 1

describe('what is written', () => {
  it('is FHIR R4 by an independent validator, without anything unexpected', () => {
    const { valid, messages } = new Fhir().validate(bundle(), { errorOnUnexpected: true })
    expect(messages?.filter(({ severity }) => severity === 'error') ?? []).toEqual([])
    expect(valid).toBe(true)
  })

  it('is held against rules that the validator does hold: a status that R4 does not know is found', () => {
    const wrong = changed('Observation', (observation) => Object.assign(observation, { status: 'superseded' }))
    expect(new Fhir().validate(wrong, { errorOnUnexpected: true }).valid).toBe(false)
  })

  it('names the patient by pseudonym alone, and no maker', () => {
    const text = JSON.stringify(bundle())
    expect(text).toContain('Case Heron')
    for (const word of ['"name"', 'birthDate', 'telecom', 'address"', 'manufacturer', 'deviceName'])
      expect(text).not.toContain(word)
  })

  it('gives a threshold by air its LOINC code where there is one, and every threshold a code of our own', () => {
    const [, test] = (bundle().entry ?? []).flatMap(({ resource }) =>
      resource?.resourceType === 'Observation'
        ? [resource as { component?: { code: { coding: { code: string }[] } }[] }]
        : [],
    )
    const codes = (test?.component ?? []).map(({ code }) => code.coding.map((coding) => coding.code))
    expect(codes).toContainEqual(['89017-8', 'air.unmasked.1000'])
    expect(codes).toContainEqual(['89023-6', 'air.masked.4000'])
    expect(codes).toContainEqual(['air.unmasked.125'])
    expect(codes).toContainEqual(['bone.masked.2000'])
  })

  it('has no two thresholds under one LOINC code', () => {
    const codes = [...Object.values(thresholdCodes.left), ...Object.values(thresholdCodes.right)]
    expect(codes).toHaveLength(22)
    expect(new Set(codes).size).toBe(22)
  })
})

describe('what is read back', () => {
  it('has the same record codes, visits and standing', () => {
    const reading = read(bundle())
    expect(reading.fileFaults).toEqual([])
    expect(reading.faults).toEqual([])
    const codes = reading.tests.map(({ test }) => recordCode(test as HearingTest))
    expect(codes).toEqual(records.tests.map(recordCode))
    expect(reading.speechTests.map(({ test }) => speechTestCode(test as never))).toEqual(
      records.speechTests.map(speechTestCode),
    )
    expect(reading.tests.map(({ state, visit, test }) => [state, visit, test.note])).toEqual([
      ['current', undefined, 'quiet room'],
      ['current', 'visit-1', ''],
      ['superseded', undefined, ''],
    ])
    expect(reading.operation).toEqual({ ear: 'right', day: '2026-05-03' })
  })

  it('is the same as what the board has, and nothing of it is entered again', () => {
    const plan = importPlan(read(bundle()), records.tests, records.speechTests)
    expect([...plan.tests, ...plan.speechTests].map(({ standing }) => standing)).toEqual(Array(5).fill('same'))
  })

  it('is new on an empty board, the earliest day first', () => {
    const plan = importPlan(read(bundle()), [], [])
    expect(plan.tests.map(({ read: { test }, standing }) => [test.performedOn, standing])).toEqual([
      ['2026-04-02', 'new'],
      ['2026-05-02', 'new'],
      ['2026-05-04', 'new'],
    ])
  })

  it('differs where the board has the same record with other numbers, and is not taken for new', () => {
    const [first, ...others] = records.tests
    const other = { ...first, points: { 'air.unmasked.500': { kind: 'heard', level: 10 } } } as unknown as HearingTest
    const plan = importPlan(read(bundle()), [other, ...others], records.speechTests)
    expect(plan.tests.find(({ read: { record } }) => record === 'test-1')?.standing).toBe('differs')
  })

  it('is told apart from the same test twice in one file', () => {
    const copy = bundle()
    const again = copy.entry?.find(({ resource }) => resource?.id === 'test-1')
    copy.entry = [...(copy.entry ?? []), ...(again === undefined ? [] : [again])]
    const plan = importPlan(read(copy), [], [])
    expect(plan.tests.filter(({ standing }) => standing === 'twice-in-file')).toHaveLength(1)
  })
})

describe('single thresholds of other systems', () => {
  const foreign = (observations: object[]) => ({
    resourceType: 'Bundle',
    type: 'searchset',
    entry: [{ resource: { resourceType: 'Patient', id: 'p' } }, ...observations.map((resource) => ({ resource }))],
  })
  const threshold = (code: string, value: number, more: object = {}) => ({
    resourceType: 'Observation',
    status: 'final',
    code: { coding: [{ system: 'http://loinc.org', code }] },
    subject: { reference: 'Patient/p' },
    effectiveDateTime: '2026-05-01T10:45:00-05:00',
    valueQuantity: { value, unit: 'dB', system: 'http://unitsofmeasure.org', code: 'dB' },
    ...more,
  })

  it('are gathered to one test an ear and day', () => {
    const reading = read(foreign([threshold('89025-1', 40), threshold('89017-8', 45), threshold('89016-0', 20)]))
    expect(reading.faults).toEqual([])
    expect(reading.pseudonym).toBeUndefined()
    expect(reading.tests.map(({ test }) => [test.ear, test.condition, test.points])).toEqual([
      [
        'right',
        'unaided',
        { 'air.unmasked.500': { kind: 'heard', level: 40 }, 'air.unmasked.1000': { kind: 'heard', level: 45 } },
      ],
      ['left', 'unaided', { 'air.unmasked.1000': { kind: 'heard', level: 20 } }],
    ])
  })

  it.each([
    ['a missing unit', { valueQuantity: { value: 40 } }, { code: 'no-unit' }],
    [
      'another unit',
      { valueQuantity: { value: 40, unit: 'dB SPL' } },
      { code: 'wrong-unit', unit: 'dB SPL', expected: 'dB HL' },
    ],
    ['no value', { valueQuantity: { unit: 'dB' } }, { code: 'no-value' }],
    [
      'the other ear as body site',
      { bodySite: { text: 'Left ear' } },
      { code: 'wrong-ear', said: 'right', site: 'left' },
    ],
    ['another patient', { subject: { reference: 'Patient/q' } }, { code: 'other-patient', reference: 'Patient/q' }],
    ['no day', { effectiveDateTime: '2026' }, { code: 'no-day' }],
    ['a day to come', { effectiveDateTime: '2026-05-05' }, { code: 'day-in-future', day: '2026-05-05' }],
  ])('with %s are a fault with its place, and the others are read', (_, more, fault) => {
    const reading = read(foreign([threshold('89025-1', 40, more), threshold('89017-8', 45)]))
    expect(reading.faults).toEqual([{ entry: 2, resource: 'Observation', fault }])
    expect(reading.tests.map(({ test }) => Object.keys(test.points))).toEqual([['air.unmasked.1000']])
  })

  it('with a level beyond what the board takes are a fault', () => {
    expect(read(foreign([threshold('89025-1', 400)])).faults[0]?.fault.code).toBe('invalid')
  })

  it('given twice are a fault: which one is meant cannot be known', () => {
    const reading = read(foreign([threshold('89025-1', 40), threshold('89025-1', 50)]))
    expect(reading.faults.map(({ fault }) => fault)).toEqual([{ code: 'point-twice', point: 'air.unmasked.500' }])
  })

  it('are read beside resources that the board has no place for, which are counted', () => {
    const reading = read(foreign([{ resourceType: 'Immunization' }, threshold('89025-1', 40)]))
    expect([...reading.passedOver]).toEqual([['Immunization', 1]])
    expect(reading.tests).toHaveLength(1)
  })
})

describe('a file that cannot be this case', () => {
  it.each([
    [
      'R5 by an element',
      changed('Encounter', (each) => Object.assign(each, { actualPeriod: { start: '2026-05-04' } })),
      '5.0',
    ],
    ['R5 by a class in a list', changed('Encounter', (each) => Object.assign(each, { class: [each.class] })), '5.0'],
    [
      'R5 by its profile',
      { ...bundle(), meta: { profile: ['http://hl7.org/fhir/StructureDefinition/Bundle|5.0.0'] } },
      '5.0.0',
    ],
    ['STU3 by an element', changed('Observation', (each) => Object.assign(each, { comment: 'x' })), '3.0'],
  ])('%s is refused with its version', (_, file, version) => {
    expect(read(file).fileFaults).toMatchObject([{ code: 'other-version', version }])
    expect(read(file).tests).toEqual([])
  })

  it('is refused when it is of another patient', () => {
    expect(read(bundle(), { ...place, pseudonym: 'Case Crane' }).fileFaults).toEqual([
      { code: 'wrong-patient', found: 'Case Heron', expected: 'Case Crane' },
    ])
  })

  it.each([
    ['no JSON', '{"resourceType":"Bun', { code: 'not-json' }],
    ['no bundle', '{"resourceType":"Patient"}', { code: 'not-a-bundle', found: 'Patient' }],
    ['no FHIR', '[1,2]', { code: 'not-a-bundle', found: 'no FHIR resource' }],
    ['no patient', '{"resourceType":"Bundle","type":"collection"}', { code: 'no-patient' }],
    [
      'several patients',
      '{"resourceType":"Bundle","type":"collection","entry":[{"resource":{"resourceType":"Patient"}},{"resource":{"resourceType":"Patient"}}]}',
      { code: 'several-patients', patients: 2 },
    ],
    ['too much', ' '.repeat(5_000_001), { code: 'too-long', characters: 5_000_001, most: 5_000_000 }],
  ])('is refused: %s', (_, text, fault) => {
    expect(readBundle(text, place).fileFaults).toEqual([fault])
  })

  it('has a test of a visit before the operation as a fault of that test', () => {
    const early = changed(
      'Observation',
      (each) => Object.assign(each, { effectiveDateTime: '2026-05-02' }),
      firstTest + 1,
    )
    expect(read(early).faults.map(({ fault }) => fault)).toEqual([
      { code: 'before-operation', day: '2026-05-02', operated: '2026-05-03' },
    ])
  })
})
