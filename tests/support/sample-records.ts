import { createHash } from 'node:crypto'
import { backingId } from '../../lib/board/records/question.ts'
import type { KindName } from '../../lib/board/records.ts'
import { pngOf } from '../fixtures/pictures.ts'
import { frozenContent, ownProfile, sealedContent } from '../fixtures/sealing-records.ts'

/** A moment that every test clock may take as now. */
export const sampleNow = new Date('2026-05-04T10:00:00.000Z')

/** One valid record of each kind by one author; questions, tests and notes can be referred to. */
export function sampleRecord(
  kind: KindName,
  id: string,
  author: string,
  at = sampleNow.toISOString(),
): Record<string, unknown> {
  return { id, author, at, ...sampleContent[kind](author) }
}

/** The question that sample replies and backings belong to. */
export const sampleQuestion = 'question-of-others'

/** The visit that sample items belong to. */
export const sampleVisit = 'visit-of-others'

/** The step that samples belong to, and the one that it needs. */
export const sampleStep = 'step-of-others'
export const sampleNeed = 'need-of-others'

/** The bytes that every sample photograph is of. */
export const samplePicture = pngOf()

/** The id that a new sample record of a kind stands under. */
export function sampleId(kind: KindName, author: string, name = 'new'): string {
  if (kind === 'header' || kind === 'plan' || kind === 'mainScreen') return 'only'
  if (kind === 'videoDelays') return author
  return kind === 'backings' ? backingId(sampleQuestion, author) : `${kind}-${name}`
}

const closed = { state: 'current' }
const sampleContent: Record<KindName, (author: string) => Record<string, unknown>> = {
  header: () => ({ pseudonym: 'Case Heron', ear: 'right', sex: 'male', ageYears: 47, summary: '', phase: 'planning' }),
  tests: () => ({
    ear: 'right',
    condition: 'unaided',
    performedOn: '2026-05-02',
    origin: 'typed',
    note: '',
    points: { 'air.unmasked.1000': { kind: 'heard', level: 55 } },
    ...closed,
  }),
  speechTests: () => ({
    ear: 'right',
    condition: 'unaided',
    performedOn: '2026-05-02',
    material: 'monosyllables',
    listName: 'list 3',
    items: 20,
    right: 13,
    speechLevel: 65,
    note: '',
    ...closed,
  }),
  annotations: () => ({ place: { kind: 'pin', ear: 'right', frequency: 2000, level: 60 }, text: 'notch' }),
  plan: () => ({ ear: 'right', malleus: 'mobile', incus: 'missing', stapes: 'mobile', approach: '', aim: '' }),
  fitMeasurements: () => ({
    ear: 'right',
    place: 'facial-recess-width',
    distanceMm: 2.9,
    imaging: 'cone-beam-ct',
    voxelMm: 0.2,
    direction: 'within-slice',
    remark: '',
  }),
  profiles: () => ({ profile: ownProfile() }),
  scenarios: frozenContent,
  forecasts: sealedContent,
  pictures: () => ({
    caption: 'The niche, drilled',
    mediaType: 'image/png',
    width: 6,
    height: 4,
    bytes: samplePicture.length,
    sha256: createHash('sha256').update(samplePicture).digest('hex'),
  }),
  steps: () => ({ rank: 'a0', title: 'Expose the round-window niche', check: '', hazard: '', state: 'ahead' }),
  stepExceptions: () => ({ step: sampleStep, need: sampleNeed, reason: 'the drape was already there' }),
  notes: () => ({
    kind: 'finding',
    rank: 'a0',
    cites: [],
    body: [{ type: 'paragraph', content: [{ text: 'stapes mobile' }] }],
  }),
  contingencies: () => ({
    rank: 'a0',
    trigger: { kind: 'found', finding: 'stapes fixed' },
    plan: 'stage the operation',
    state: 'watching',
  }),
  visits: () => ({
    occasion: '6-months',
    plannedOn: '2026-11-02',
    state: 'planned',
    findings: '',
    complications: {},
    note: '',
  }),
  visitItems: () => ({ visit: sampleVisit, words: 'Measure up to 8 kHz', state: 'open' }),
  votes: () => ({ question: 'Which site?', options: ['round window', 'stapes head'], asksConfidence: true }),
  mainScreen: () => ({ showing: { kind: 'steps' } }),
  upNext: () => ({ rank: 'a0', showing: { kind: 'forecast' } }),
  questions: () => ({ text: 'Is the footplate mobile?', state: 'raised', rank: 'a0' }),
  replies: () => ({ question: sampleQuestion, text: 'It was at the last look.' }),
  backings: () => ({ question: sampleQuestion }),
  videoDelays: () => ({ delaysMs: [11_800, 12_100, 12_400], clockErrorMs: 20 }),
}
