import type { Audiogram, Threshold } from '../../lib/audiometry/thresholds.ts'
import { daysLater } from '../../lib/board/visit-plan.ts'
import { rounded } from '../../lib/devices/sealed-numbers.ts'
import { type CaseOutcome, thresholdsText, type VisitOutcome } from '../../lib/interchange/outcome-columns.ts'
import type { FrequencyHz } from '../../lib/units/frequencies.ts'
import { asDbHl, asDbSpl } from '../../lib/units/levels.ts'
import type { Demo } from '../serve.ts'
import { DemoCase, points } from './demo-case.ts'
import { type Draw, type InventedEar, inventedEar, inventedFrequencies } from './invented-ear.ts'
import { audiologist, everybody, surgeon } from './people.ts'
import { sealedFrom } from './sealed.ts'

const earsOfDemo = 300

/** A series of invented ears for trying what is added up, each a case of its own that opens like any other. */
export const seriesDemo: Demo = {
  programme: 'demo-series',
  seed: async (store, now) => {
    await store.createProgramme({
      id: 'demo-series',
      label: 'Invented series',
      createdAt: now.toISOString(),
    })
    for (const { id, name, affiliation } of everybody)
      await store.createParticipant({ id, name, affiliation, createdAt: now.toISOString() })
    const draw = drawsFrom(2026)
    for (let n = 1; n <= earsOfDemo; n++) {
      const name = `Ear ${String(n).padStart(3, '0')}`
      const made = inventedCase(`demo-ear-${n}`, name, inventedEar(draw), now)
      await made.store(store, { programme: 'demo-series', label: name, rank: `a${String(n).padStart(4, '0')}` })
    }
  },
}

/** The same numbers in [0, 1) for the same start (Mulberry32), so that every demo shows the same ears. */
export function drawsFrom(start: number): Draw {
  let state = start
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

function inventedCase(id: string, name: string, of: InventedEar, now: Date): DemoCase {
  const made = new DemoCase(id, now)
  const { operatedDaysAgo, ear, deviceClass, couplingSite, malleus, incus, stapes } = of
  const tested = operatedDaysAgo + 14
  made.put('header', 'only', surgeon, 24 * (tested + 1), {
    pseudonym: name,
    ear,
    sex: 'not-stated',
    summary: '',
    phase: 'follow-up',
    operatedOn: made.day(operatedDaysAgo),
    pathology: of.pathology,
    ...(of.tags.length === 0 ? {} : { tags: [...of.tags] }),
  })
  made.put('plan', 'only', surgeon, 24 * tested, {
    ear,
    deviceClass,
    couplingSite,
    malleus,
    incus,
    stapes,
    approach: '',
    aim: '',
  })
  made.put('tests', 'before', audiologist, 24 * tested, {
    ear,
    condition: 'unaided',
    performedOn: made.day(tested),
    airTransducer: 'insert',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: '',
    state: 'current',
    points: {
      ...points('air', true, inventedFrequencies, of.air),
      ...points('bone', true, inventedFrequencies, of.bone.map(cell)),
    },
  })
  putWords(made, 'words-before', of, { daysAgo: tested, right: of.wordsBefore, visit: undefined })
  // One case in three has no sealed forecast, as in any series that began before there were forecasts.
  if (Number(id.split('-').at(-1)) % 3 !== 0)
    made.put(
      'forecasts',
      'sealed',
      surgeon,
      24 * (operatedDaysAgo + 7),
      sealedFrom(made.recordNow(), { deviceClass, couplingSite }),
    )
  for (const [index, visit] of of.visits.entries()) putVisit(made, of, visit, of.visits[index + 1])
  return made
}

const cell = (level: number | null) => level ?? '-'

function putVisit(
  made: DemoCase,
  of: InventedEar,
  { occasion, daysAgo, aided, wordsRight }: InventedEar['visits'][number],
  next: InventedEar['visits'][number] | undefined,
): void {
  made.put('visits', occasion, audiologist, 24 * daysAgo, {
    occasion,
    state: 'held',
    held: { ...made.signed(audiologist, 24 * daysAgo), on: made.day(daysAgo) },
    findings: '',
    complicationsSought: true,
    complications: {},
    note: '',
  })
  const closing =
    next === undefined
      ? undefined
      : {
          ...made.signed(audiologist, 24 * next.daysAgo),
          reason: 'Newer test',
          supersededBy: `aided-${next.occasion}`,
        }
  made.put('tests', `aided-${occasion}`, audiologist, 24 * daysAgo, {
    ear: of.ear,
    condition: 'aided',
    performedOn: made.day(daysAgo),
    visit: occasion,
    origin: 'typed',
    note: '',
    ...(closing === undefined ? { state: 'current' as const } : { state: 'superseded' as const, closing }),
    points: points('aided', false, inventedFrequencies, aided.map(cell)),
  })
  if (wordsRight !== null) putWords(made, `words-${occasion}`, of, { daysAgo, right: wordsRight, visit: occasion })
}

function putWords(
  made: DemoCase,
  id: string,
  { ear }: InventedEar,
  { daysAgo, right, visit }: { readonly daysAgo: number; readonly right: number; readonly visit: string | undefined },
): void {
  made.put('speechTests', id, audiologist, 24 * daysAgo, {
    ear,
    condition: visit === undefined ? 'unaided' : 'aided',
    performedOn: made.day(daysAgo),
    ...(visit === undefined ? {} : { visit }),
    material: 'monosyllables',
    listName: 'Invented list',
    items: 20,
    right,
    speechLevel: asDbSpl(65),
    note: '',
    state: 'current',
  })
}

/** The columns that such an ear would give, without its documents: for series larger than a demo. */
export function inventedOutcome(patient: string, of: InventedEar, today: string): CaseOutcome {
  const { ear, deviceClass, couplingSite, pathology, malleus, incus, stapes, tags } = of
  const day = (daysAgo: number) => daysLater(today, -daysAgo)
  const before: VisitOutcome = {
    visit: '',
    occasion: 'before',
    year: null,
    heldOn: day(of.operatedDaysAgo + 14),
    air: textOf(of.air),
    bone: textOf(of.bone),
    soundField: '',
    aided: '',
    wordsPercent: 5 * of.wordsBefore,
  }
  const visits = of.visits.map(
    ({ occasion, daysAgo, aided, wordsRight }): VisitOutcome => ({
      visit: occasion,
      occasion,
      year: null,
      heldOn: day(daysAgo),
      air: '',
      bone: '',
      soundField: '',
      aided: textOf(aided),
      wordsPercent: wordsRight === null ? null : 5 * wordsRight,
    }),
  )
  return {
    patient,
    ear,
    deviceClass,
    couplingSite,
    pathology,
    malleus,
    incus,
    stapes,
    operatedOn: day(of.operatedDaysAgo),
    tags: tags.join(','),
    forecast: forecastNear(of),
    visits: [before, ...visits],
  }
}

/** A forecast of four tones about the bone conduction, with the spread that the model gives. */
function forecastNear({ bone }: InventedEar): string {
  const four = [1, 2, 3, 5].map((index) => bone[index] ?? 0)
  const value = four.reduce((sum, level) => sum + level, 0) / four.length - 3
  const within = (half: number) => ({ low: rounded(value - half), high: rounded(value + half) })
  return JSON.stringify({
    kind: 'estimate',
    value: rounded(value),
    interval50: within(4.38),
    interval: within(8.33),
    distribution: { mean: rounded(value), sd: 6.5 },
  })
}

function textOf(levels: readonly (number | null)[]): string {
  const audiogram: Audiogram = new Map(
    inventedFrequencies.flatMap((frequency, index): [FrequencyHz, Threshold][] => {
      const level = levels[index] ?? null
      return level === null ? [] : [[frequency, { kind: 'heard', level: asDbHl(level), masked: false }]]
    }),
  )
  return thresholdsText(audiogram)
}
