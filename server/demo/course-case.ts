import type { HearingTest } from '../../lib/board/records/hearing-test.ts'
import { paragraphs } from '../../lib/board/rich-text.ts'
import type { DeviceOption } from '../../lib/devices/classes.ts'
import type { FrequencyHz } from '../../lib/units/frequencies.ts'
import { asDbSpl } from '../../lib/units/levels.ts'
import { conventional, DemoCase, points } from './demo-case.ts'
import { audiologist, expertNorth, moderator, surgeon } from './people.ts'
import { sealedFrom } from './sealed.ts'

/** Days between the invented operation and the day on which the demo is made. */
const operated = 425
const onIncus: DeviceOption = { deviceClass: 'active-middle-ear-implant', couplingSite: 'incus-body' }

/**
 * Invented: a woman of 58 fourteen months after an actuator on the body of the incus, left; malleus and incus had been
 * freed in the attic. Three visits were held; at the last one the low tones have gone, as if the heads had fixed again.
 */
export function courseCase(now: Date): DemoCase {
  const made = new DemoCase('demo-curlew', now)
  describe(made)
  before(made)
  sealed(made)
  visits(made)
  decisions(made)
  floor(made)
  return made
}

function describe(made: DemoCase): void {
  made.put('header', 'only', moderator, 24 * 20, {
    pseudonym: 'Curlew',
    ear: 'left',
    ageYears: 58,
    sex: 'female',
    summary:
      'Heads of malleus and incus grown together and fixed in the attic on the left, freed at operation; actuator on the body of the incus. Mixed loss. Right ear: hearing aid.',
    phase: 'follow-up',
    operatedOn: made.day(operated),
    pathology: 'tympanosclerosis',
    tags: ['attic fixation'],
    consent: {
      state: 'recorded',
      how: 'Written consent to broadcasting, filed at the clinic',
      ...made.signed(surgeon, 24 * 430),
    },
  })
  made.put('plan', 'only', surgeon, 24 * 440, {
    ear: 'left',
    ...onIncus,
    malleus: 'stiff',
    incus: 'stiff',
    stapes: 'mobile',
    approach: 'Through the mastoid; attic opened, heads freed, actuator on the body of the incus.',
    aim: 'Close the air-bone gap from 0.5 to 4 kHz.',
  })
  made.put('mainScreen', 'only', moderator, 24 * 425, { showing: { kind: 'audiogram', ear: 'left' } })
}

const five: readonly FrequencyHz[] = [500, 1000, 2000, 3000, 4000]

/** Unaided tests of the left ear, one after the other; each is superseded by the next. */
function before(made: DemoCase): void {
  unaided(made, 'before', {
    days: operated + 12,
    next: 'at-12-months',
    air: [60, 65, 65, 60, 60, 65, 75, 80],
    bone: [25, 30, 40, 45, 45],
  })
  made.put('tests', 'right-before', audiologist, 24 * (operated + 12), {
    ear: 'right',
    condition: 'unaided',
    performedOn: made.day(operated + 12),
    airTransducer: 'insert',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: '',
    state: 'current',
    points: {
      ...points('air', false, conventional, [25, 30, 35, 45, 50, 55, 60, 65]),
      ...points('bone', false, five, [25, 35, 45, 45, 50]),
    },
  })
}

interface Unaided {
  readonly days: number
  readonly next?: string
  readonly visit?: string
  readonly air: readonly number[]
  readonly bone: readonly number[]
}

function unaided(made: DemoCase, id: string, { days, next, visit, air, bone }: Unaided): void {
  made.put('tests', id, audiologist, 24 * days, {
    ear: 'left',
    condition: 'unaided',
    performedOn: made.day(days),
    ...(visit === undefined ? {} : { visit }),
    airTransducer: 'insert',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: 'Masked throughout.',
    verification: made.signed(audiologist, 24 * days - 1),
    ...standing(made, days, next),
    points: { ...points('air', true, conventional, air), ...points('bone', true, five, bone) },
  })
}

function standing(made: DemoCase, days: number, next: string | undefined): Pick<HearingTest, 'state' | 'closing'> {
  if (next === undefined) return { state: 'current' }
  const closing = { ...made.signed(audiologist, 24 * Math.min(days, 21)), reason: 'Newer test', supersededBy: next }
  return { state: 'superseded', closing }
}

/** Sealed a week before the operation, from the test that was current then. */
function sealed(made: DemoCase): void {
  const now = made.recordNow()
  const tests = now.tests.map(({ closing: _, ...test }) => ({ ...test, state: 'current' as const }))
  made.put('forecasts', 'sealed-left', surgeon, 24 * (operated + 7), sealedFrom({ ...now, tests }, onIncus))
}

function visits(made: DemoCase): void {
  const blank = { findings: '', complications: {}, note: '' }
  const held = (days: number) => ({
    state: 'held' as const,
    plannedOn: made.day(days + 2),
    held: { ...made.signed(audiologist, 24 * days - 2), on: made.day(days) },
    complicationsSought: true,
  })
  made.put('visits', 'first-fitting', audiologist, 24 * 420, {
    ...blank,
    ...held(380),
    occasion: 'first-fitting',
    settings: { change: 'fitted-anew', hoursADay: 0, words: 'Three programmes, output held back for four weeks.' },
    findings: 'Wound healed, eardrum dry.',
    complications: { 'taste-disturbance': { course: 'new', words: 'Metallic on the left, fading.' } },
  })
  made.put('visits', 'at-1-month', audiologist, 24 * 420, {
    ...blank,
    occasion: '1-month',
    plannedOn: made.day(350),
    state: 'missed',
    note: 'Cancelled by the patient; settings adjusted by telephone.',
  })
  made.put('visits', 'at-3-months', audiologist, 24 * 420, {
    ...blank,
    ...held(288),
    occasion: '3-months',
    settings: { change: 'fine-tuned', hoursADay: 11, words: 'Output raised to target.' },
    complications: { 'taste-disturbance': { course: 'resolved', words: '' } },
  })
  made.put('visits', 'at-12-months', audiologist, 24 * 420, {
    ...blank,
    ...held(14),
    occasion: '12-months',
    settings: { change: 'as-before', hoursADay: 9, words: '' },
    findings: 'Eardrum intact. Says that voices have become thin since the summer.',
  })
  made.put('visits', 'in-two-years', audiologist, 24 * 14, {
    ...blank,
    occasion: 'yearly',
    year: 2,
    plannedOn: made.day(-9),
    state: 'planned',
  })
  aided(made, 'aided-first', 380, 'first-fitting', 'aided-3', [35, 35, 40, 45, 50])
  aided(made, 'aided-3', 288, 'at-3-months', 'aided-12', [30, 30, 40, 45, 45])
  aided(made, 'aided-12', 14, 'at-12-months', undefined, [60, 60, 50, 50, 50])
  unaided(made, 'at-12-months', {
    days: 14,
    visit: 'at-12-months',
    air: [60, 65, 65, 60, 55, 60, 70, 80],
    bone: [25, 30, 40, 40, 45],
  })
  for (const [id, visit, days, right] of [
    ['words-first', 'first-fitting', 380, 14],
    ['words-3', 'at-3-months', 288, 17],
    ['words-12', 'at-12-months', 14, 12],
  ] as const)
    made.put('speechTests', id, audiologist, 24 * days, {
      ear: 'left',
      condition: 'aided',
      performedOn: made.day(days),
      visit,
      material: 'monosyllables',
      listName: `List ${right}`,
      items: 20,
      right,
      speechLevel: asDbSpl(65),
      note: '',
      state: 'current',
    })
}

function aided(
  made: DemoCase,
  id: string,
  days: number,
  visit: string,
  next: string | undefined,
  levels: readonly number[],
): void {
  made.put('tests', id, audiologist, 24 * days, {
    ear: 'left',
    condition: 'aided',
    performedOn: made.day(days),
    visit,
    device: 'Active middle-ear implant',
    origin: 'typed',
    note: '',
    ...standing(made, days, next),
    points: points('aided', false, five, levels),
  })
}

function decisions(made: DemoCase): void {
  made.put('notes', 'note-freed', surgeon, 24 * operated, {
    kind: 'finding',
    rank: 'a0',
    cites: [],
    body: paragraphs(
      'Heads of malleus and incus freed in the attic with a laser; a thin sheet laid between bone and heads.',
    ),
  })
  made.put('contingencies', 'if-fixation', surgeon, 24 * operated, {
    rank: 'a0',
    trigger: {
      kind: 'measured',
      measure: 'effective-gain',
      from: 500,
      to: 2000,
      change: 'falls-by',
      amountDb: 10,
      reference: 'first-fitting',
    },
    plan: 'Fixation has come back: revise to the head of the stapes.',
    state: 'watching',
  })
  made.put('contingencies', 'if-inner-ear', audiologist, 24 * operated, {
    rank: 'a1',
    trigger: {
      kind: 'measured',
      measure: 'bone-conduction',
      from: 1000,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'before-surgery',
    },
    plan: 'Treat as an inner-ear event at once; fit anew.',
    state: 'watching',
  })
  made.put('contingencies', 'if-short', surgeon, 24 * operated, {
    rank: 'a2',
    trigger: {
      kind: 'measured',
      measure: 'aided-threshold',
      from: 2000,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'best-so-far',
    },
    plan: 'Test the actuator, then scan for contact.',
    state: 'watching',
  })
}

function floor(made: DemoCase): void {
  made.put('questions', 'q-high', expertNorth, 24 * operated, {
    text: 'What is left at 4, 6 and 8 kHz a year after work in the attic?',
    state: 'deferred',
    rank: 'a0',
    movedAt: made.moment(24 * operated - 1),
    deferredTo: 'the twelve-month visit',
  })
  made.put('visitItems', 'item-high', audiologist, 24 * 420, {
    visit: 'at-12-months',
    words: 'Measure air conduction at 4, 6 and 8 kHz',
    wanted: { ear: 'left', route: 'air', frequencies: [4000, 6000, 8000] },
    question: 'q-high',
    state: 'open',
  })
}
