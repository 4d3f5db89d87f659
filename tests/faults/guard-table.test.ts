import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { putRecord, recordMap } from '../../lib/board/edits/writing.ts'
import { tableOf } from '../../lib/board/layout.ts'
import { type KindName, kindNames, kindOf, type RecordKind } from '../../lib/board/records.ts'
import { Role } from '../../lib/board/roles.ts'
import { sealedEar } from '../fixtures/sealing-records.ts'
import { type Answer, LightClient } from '../support/light-client.ts'
import {
  sampleId,
  sampleNeed,
  sampleQuestion,
  sampleRecord,
  sampleStep,
  sampleVisit,
} from '../support/sample-records.ts'
import { type SyncServer, startSyncServer } from '../support/sync-server.ts'

/**
 * G2: every role x every kind of record x create, change of each field, move, removal, sent as raw updates over a real
 * socket, is allowed exactly where the table says. What is expected is read from the table here, independently of
 * lib/board/judge.ts.
 */
const self = 'person-self'
const other = 'person-other'
const now = () => new Date().toISOString()

/** What turns a sample record into another valid one by way of this field, and what the sample needs for it first. */
interface FieldCase {
  readonly before?: Record<string, unknown>
  readonly patch: Record<string, unknown>
}
const signed = () => ({ by: self, at: now() })
const closing = (by: string) => ({ by, at: now(), reason: 'wrong ear' })
const heldOn = (by: string) => ({ state: 'held', held: { by, at: now(), on: now().slice(0, 10) } })
const doneBy = (by: string) => ({ state: 'done', done: { by, at: now(), outcome: 'done' } })
const testFields = (): Record<string, FieldCase> => ({
  performedOn: { patch: { performedOn: '2026-05-01' } },
  note: { patch: { note: 'repeated' } },
  visit: { patch: { visit: sampleVisit } },
  state: { patch: { state: 'superseded', closing: closing(self) } },
  verification: { patch: { verification: signed() } },
  closing: { before: { state: 'superseded', closing: closing(other) }, patch: { closing: closing(self) } },
})
const fieldCases: { readonly [K in KindName]: () => Record<string, FieldCase> } = {
  header: () => ({
    pseudonym: { patch: { pseudonym: 'Case Tern' } },
    ear: { patch: { ear: 'left' } },
    ageYears: { patch: { ageYears: 48 } },
    sex: { patch: { sex: 'female' } },
    summary: { patch: { summary: 'more' } },
    phase: { patch: { phase: 'follow-up' } },
    operatedOn: { patch: { operatedOn: '2026-05-03' } },
    pathology: { patch: { pathology: 'otosclerosis' } },
    tags: { patch: { tags: ['second operation'] } },
    consent: { patch: { consent: { state: 'recorded', how: 'on paper', ...signed() } } },
    reopened: {
      before: { phase: 'closed' },
      patch: { phase: 'planning', reopened: { reason: 'a test was missing', ...signed() } },
    },
  }),
  tests: () => ({
    ...testFields(),
    airTransducer: { patch: { airTransducer: 'insert' } },
    boneTransducer: { patch: { boneTransducer: 'bone-mastoid' } },
    device: { patch: { device: 'class only' } },
    repeatAt1000: { patch: { repeatAt1000: 60 } },
    points: { patch: { points: new Y.Map([['air.unmasked.2000', { kind: 'no-response', limit: 110 }]]) } },
  }),
  speechTests: () => ({
    ...testFields(),
    material: { patch: { material: 'sentences' } },
    listName: { patch: { listName: 'list 4' } },
    items: { patch: { items: 25 } },
    right: { patch: { right: 14 } },
    speechLevel: { patch: { speechLevel: 80 } },
    noiseLevel: { patch: { noiseLevel: 60 } },
    receptionThreshold: {
      before: { items: undefined, right: undefined, speechLevel: undefined, receptionThreshold: 40 },
      patch: { receptionThreshold: 45 },
    },
  }),
  annotations: () => ({
    text: { patch: { text: 'deeper notch' } },
    place: { patch: { place: { kind: 'band', ear: 'right', from: 2000, to: 4000 } } },
    test: { patch: { test: 'tests-new' } },
  }),
  plan: () => ({
    ear: { patch: { ear: 'left' } },
    deviceClass: { patch: { deviceClass: 'percutaneous-bone-anchored' } },
    couplingSite: { before: { deviceClass: 'active-middle-ear-implant' }, patch: { couplingSite: 'round-window' } },
    malleus: { patch: { malleus: 'stiff' } },
    incus: { patch: { incus: 'eroded' } },
    stapes: { patch: { stapes: 'fixed' } },
    earCanal: { patch: { earCanal: 'draining-ear' } },
    earChanges: { patch: { earChanges: [{ kind: 'ligament-stiffened', ligament: 'malleus', times: 10 }] } },
    approach: { patch: { approach: 'combined' } },
    aim: { patch: { aim: 'close the gap' } },
  }),
  fitMeasurements: () => ({
    place: { patch: { place: 'round-window-niche' } },
    roomFor: { patch: { roomFor: 'diameter' } },
    distanceMm: { patch: { distanceMm: 2.4 } },
    imaging: { patch: { imaging: 'multislice-ct' } },
    voxelMm: { patch: { voxelMm: 0.3 } },
    sliceSpacingMm: { patch: { sliceSpacingMm: 0.6 } },
    direction: { patch: { direction: 'oblique' } },
    observerSdMm: { patch: { observerSdMm: 0.1 } },
    scannedOn: { patch: { scannedOn: '2026-04-30' } },
    remark: { patch: { remark: 'chorda not seen' } },
  }),
  profiles: () => ({}),
  scenarios: () => ({}),
  forecasts: () => ({}),
  steps: () => ({
    rank: { patch: { rank: 'a5' } },
    title: { patch: { title: 'Test every ossicle' } },
    check: { patch: { check: 'seen whole' } },
    hazard: { patch: { hazard: 'jugular bulb' } },
    state: { patch: { state: 'under-way' } },
    startedAt: { patch: { startedAt: now() } },
    endedAt: { patch: { endedAt: now() } },
    needs: { patch: { needs: [sampleNeed] } },
  }),
  pictures: () => ({
    caption: { patch: { caption: 'The niche, opened' } },
    step: { before: { step: 'steps-gone' }, patch: { step: sampleStep } },
  }),
  stepExceptions: () => ({}),
  notes: () => ({
    kind: { patch: { kind: 'decision' } },
    rank: { patch: { rank: 'a5' } },
    cites: { patch: { cites: [{ kind: 'test', id: 'tests-new' }] } },
    body: { patch: { body: new Y.XmlFragment() } },
    step: { patch: { step: sampleStep } },
    struck: { patch: { struck: { reason: 'superseded by the next', ...signed() } } },
  }),
  contingencies: () => ({
    rank: { patch: { rank: 'a5' } },
    trigger: { patch: { trigger: { kind: 'found', finding: 'perilymph' } } },
    plan: { patch: { plan: 'seal and wait' } },
    state: { patch: { state: 'met' } },
    step: { patch: { step: sampleStep } },
    moved: { patch: { moved: { why: 'seen', ...signed() } } },
    acted: { before: { state: 'acted-on' }, patch: { acted: { what: 'revised', ...signed() } } },
  }),
  visits: () => ({
    plannedOn: { patch: { plannedOn: '2026-11-09' } },
    state: { patch: { state: 'missed' } },
    held: { before: heldOn(other), patch: { held: heldOn(self).held } },
    settings: { patch: { settings: { change: 'fine-tuned', words: '' } } },
    findings: { patch: { findings: 'eardrum dry' } },
    complicationsSought: { patch: { complicationsSought: true } },
    complications: { patch: { complications: new Y.Map([['vertigo', { course: 'new', words: '' }]]) } },
    note: { patch: { note: 'came alone' } },
  }),
  visitItems: () => ({
    visit: { patch: { visit: `${sampleVisit}-2` } },
    words: { patch: { words: 'Measure up to 6 kHz' } },
    wanted: { patch: { wanted: { ear: 'right', route: 'air', frequencies: [4000, 6000, 8000] } } },
    state: { patch: { state: 'dropped' } },
    done: { before: doneBy(other), patch: { done: doneBy(self).done } },
  }),
  votes: () => ({}),
  mainScreen: () => ({ showing: { patch: { showing: { kind: 'forecast' } } } }),
  upNext: () => ({ rank: { patch: { rank: 'a5' } } }),
  questions: () => ({
    text: { patch: { text: 'Is the footplate stiff?' } },
    anchor: { patch: { anchor: { kind: 'step', id: 'steps-new' } } },
    state: { before: { state: 'deferred' }, patch: { state: 'answered' } },
    rank: { patch: { rank: 'a5' } },
    foldedInto: { patch: { foldedInto: sampleQuestion } },
    answer: { patch: { answer: { text: 'mobile', ...signed() } } },
    deferredTo: { patch: { deferredTo: 'six months' } },
    movedAt: { patch: { movedAt: now() } },
    movedBy: { patch: { movedBy: self } },
    themes: { patch: { themes: ['round window'] } },
  }),
  replies: () => ({ text: { patch: { text: 'It was.' } } }),
  backings: () => ({}),
  videoDelays: () => ({}),
}

let server: SyncServer
let cases = 0
beforeAll(async () => {
  server = await startSyncServer()
  await server.store.createProgramme({ id: 'programme', label: 'Programme', createdAt: now() })
})
afterAll(() => server.stop())

/** Sends one edit as somebody to a fresh case that holds these records, and says what the server made of it. */
async function attempt(
  kind: KindName,
  role: Role,
  seeds: readonly (readonly [KindName, Record<string, unknown>])[],
  edit: (doc: Y.Doc) => void,
): Promise<Answer> {
  const caseId = `case-${++cases}`
  await server.store.createCase({
    id: caseId,
    programme: 'programme',
    label: caseId,
    rank: `a${cases}`,
    createdAt: now(),
  })
  const document = documentName(kindOf(kind).document, caseId)
  const seeded = new Y.Doc()
  if (kindOf(kind).document === 'floor')
    putRecord(seeded, 'questions', sampleRecord('questions', sampleQuestion, 'person-third', now()) as never)
  if (kindOf(kind).sealed)
    for (const [needed, record] of Object.entries(sealedEar('person-third', now())))
      putRecord(seeded, needed as KindName, record as never)
  if (kindOf(kind).document === 'record' && !kindOf(kind).sealed) {
    const header = sampleRecord('header', 'only', 'person-third', now())
    if (kind !== 'header') putRecord(seeded, 'header', { ...header, operatedOn: '2026-05-01' } as never)
    for (const id of [sampleStep, sampleNeed])
      putRecord(seeded, 'steps', sampleRecord('steps', id, 'person-third', now()) as never)
    for (const [id, occasion] of Object.entries({ [sampleVisit]: '1-month', [`${sampleVisit}-2`]: '3-months' }))
      putRecord(seeded, 'visits', { ...sampleRecord('visits', id, 'person-third', now()), occasion } as never)
  }
  if (kind === 'pictures') putRecord(seeded, 'steps', sampleRecord('steps', sampleStep, 'person-third', now()) as never)
  for (const [seedKind, record] of seeds) putRecord(seeded, seedKind, record as never)
  await server.seed(document, seeded)
  const client = await LightClient.join(`${server.url}/sync/${document}?own=1&as=${self}&role=${role}`)
  try {
    return await client.attempt(edit)
  } finally {
    client.close()
  }
}

const handsOf = (hands: readonly string[], role: Role, author: string, kind: RecordKind) =>
  hands.includes(role) ||
  (hands.includes('author') && author === self && (kind.create as readonly string[]).includes(role))

const patchRecord = (kind: KindName, id: string, patch: Record<string, unknown>) => (doc: Y.Doc) => {
  const record = recordMap(doc, kind, id)
  const restamp = kindOf(kind).single ? { author: self, at: now() } : {}
  for (const [field, value] of Object.entries({ ...patch, ...restamp })) record.set(field, value)
}

function expectAnswer(answer: Answer, allowed: boolean) {
  if (allowed) expect(answer).toBe('stored')
  else
    expect(answer).toMatchObject({
      code: expect.stringMatching(/^(not-permitted|not-yours|own-question|no-such-move|sealed-record)$/),
    })
}

describe.each(Role.options)('[G2] as %s', (role) => {
  describe.each(kindNames)('%s', (name) => {
    const kind = kindOf(name)

    it('are created where the table says', async () => {
      const record = sampleRecord(name, sampleId(name, self), self, now())
      const answer = await attempt(name, role, [], (doc) => putRecord(doc, name, record as never))
      expectAnswer(answer, kind.byServer !== true && kind.create.includes(role))
    })

    it.each([self, other])('written by %s are removed where the table says', async (author) => {
      const id = sampleId(name, author)
      const answer = await attempt(name, role, [[name, sampleRecord(name, id, author, now())]], (doc) =>
        tableOf(doc, name).delete(id),
      )
      expectAnswer(answer, handsOf(kind.remove, role, author, kind))
    })

    it.each([self, other])('written by %s change field by field where the table says', async (author) => {
      const id = sampleId(name, author)
      for (const [field, { before, patch }] of Object.entries(fieldCases[name]())) {
        const seed = { ...sampleRecord(name, id, author, now()), ...before }
        const allowed = Object.keys(patch).every((changed) => handsOf(kind.change[changed] ?? [], role, author, kind))
        const answer = await attempt(name, role, [[name, seed]], patchRecord(name, id, patch))
        expect([field, answer === 'stored', answer]).toEqual([field, allowed, answer])
      }
    })
  })
})

/** Every pair of states of the kinds that have moves, whether the table names it or not. */
const stateful = kindNames.filter((name) => kindOf(name).moves !== undefined)
const statesOf = (kind: RecordKind) => [...new Set(Object.keys(kind.moves ?? {}).flatMap((move) => move.split('>')))]

/** What a record of this kind has to carry in a state. */
function carriedBy(name: KindName, state: string, by: string): Record<string, unknown> {
  if (name === 'tests' || name === 'speechTests') return state === 'current' ? {} : { closing: closing(by) }
  if (name === 'visits' && state === 'held') return { held: heldOn(by).held }
  return name === 'visitItems' && state === 'done' ? { done: doneBy(by).done } : {}
}

describe.each(Role.options)('[G3] as %s', (role) => {
  it.each(stateful)('%s move between states only where the table says', async (name) => {
    const kind = kindOf(name)
    const id = sampleId(name, other)
    for (const from of statesOf(kind))
      for (const to of statesOf(kind)) {
        if (from === to) continue
        const seed = { ...sampleRecord(name, id, other, now()), state: from, ...carriedBy(name, from, other) }
        const answer = await attempt(name, role, [[name, seed]], (doc) => {
          const record = recordMap(doc, name, id)
          record.set('state', to)
          for (const field of Object.keys(carriedBy(name, from, other))) record.delete(field)
          for (const [field, value] of Object.entries(carriedBy(name, to, self))) record.set(field, value)
        })
        const allowed = handsOf(kind.moves?.[`${from}>${to}`] ?? [], role, other, kind)
        expect([`${from}>${to}`, answer === 'stored', answer]).toEqual([`${from}>${to}`, allowed, answer])
      }
  })
})

it('the cases above name every changeable field of every kind', () => {
  for (const name of kindNames)
    expect(Object.keys(fieldCases[name]()).sort()).toEqual(Object.keys(kindOf(name).change).sort())
})
