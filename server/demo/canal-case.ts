import { paragraphs } from '../../lib/board/rich-text.ts'
import type { DeviceOption } from '../../lib/devices/classes.ts'
import { asDbHl, asDbSpl } from '../../lib/units/levels.ts'
import { conventional, DemoCase, points } from './demo-case.ts'
import { drawnCavity } from './drawn-field.ts'
import { audiologist, expertNorth, expertSouth, moderator, scribe, surgeon } from './people.ts'
import { frozenFrom, inventedProfile, sealedFrom } from './sealed.ts'

/** Invented: a woman of 31, ear canal missing from birth on the left, inner ear normal; the right ear hears normally. */
export function canalCase(now: Date): DemoCase {
  const made = new DemoCase('demo-plover', now)
  describe(made)
  tests(made)
  distances(made)
  sealed(made)
  decisions(made)
  floor(made)
  made.planVisits(audiologist, 2, -5)
  made.put('visitItems', 'item-skin', audiologist, 2, {
    visit: 'visit-first-fitting',
    words: 'Skin over the transducer: thickness, and whether the magnet holds',
    state: 'open',
  })
  return made
}

function describe(made: DemoCase): void {
  made.put('header', 'only', moderator, 30, {
    pseudonym: 'Plover',
    ear: 'left',
    ageYears: 31,
    sex: 'female',
    summary:
      'Ear canal missing on the left from birth, pinna reconstructed in childhood. Small middle-ear space, malleus and incus fused, stapes present on the scan. Right ear normal. Asks for hearing on the left at work.',
    phase: 'planning',
    pathology: 'atresia',
    consent: {
      state: 'recorded',
      how: 'Written consent to broadcasting, filed at the clinic',
      ...made.signed(surgeon, 29),
    },
  })
  made.put('plan', 'only', surgeon, 28, {
    ear: 'left',
    deviceClass: 'active-transcutaneous-bone-conduction',
    couplingSite: 'skull',
    malleus: 'fixed',
    incus: 'fixed',
    stapes: 'not-known',
    earCanal: 'atresia',
    earChanges: [{ kind: 'ligament-fixed', ligament: 'malleus-and-incus' }],
    approach:
      'Transducer behind the reconstructed pinna; direct coupling to the stapes only if the scan shows a safe way.',
    aim: 'Aided thresholds of 30 dB HL or better from 0.5 to 4 kHz without touching the pinna.',
  })
  made.put('mainScreen', 'only', moderator, 29, { showing: { kind: 'nothing' } })
  made.put('upNext', 'next-forecast', moderator, 29, { rank: 'a0', showing: { kind: 'forecast' } })
}

function tests(made: DemoCase): void {
  made.put('tests', 'left-now', audiologist, 24 * 15, {
    ear: 'left',
    condition: 'unaided',
    performedOn: made.day(15),
    airTransducer: 'supra-aural',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: 'Right ear masked.',
    state: 'current',
    verification: made.signed(audiologist, 24 * 14),
    points: {
      ...points('air', true, conventional, [65, 65, 60, 60, 60, 65, 65, 70]),
      ...points('bone', true, [250, 500, 1000, 2000, 3000, 4000], [0, 5, 5, 10, 5, 10]),
    },
  })
  made.put('tests', 'left-school', scribe, 24 * 20, {
    ear: 'left',
    condition: 'unaided',
    performedOn: made.day(24 * 260),
    origin: 'typed',
    note: 'From the file of the children’s clinic; masking not stated.',
    state: 'superseded',
    closing: { ...made.signed(audiologist, 24 * 15), reason: 'Measured again with masking', supersededBy: 'left-now' },
    points: {
      ...points('air', false, [250, 500, 1000, 2000, 4000], [60, 60, 55, 55, 60]),
      ...points('bone', false, [500, 1000, 2000, 4000], [0, 0, 5, 5]),
    },
  })
  made.put('tests', 'left-unmasked', scribe, 24 * 16, {
    ear: 'left',
    condition: 'unaided',
    performedOn: made.day(16),
    airTransducer: 'supra-aural',
    origin: 'typed',
    note: '',
    state: 'entered-in-error',
    closing: { ...made.signed(audiologist, 24 * 15), reason: 'Taken without masking: the right ear answered' },
    points: points('air', false, conventional, [45, 45, 45, 45, 50, 50, 50, 55]),
  })
  made.put('tests', 'right-now', audiologist, 24 * 15, {
    ear: 'right',
    condition: 'unaided',
    performedOn: made.day(15),
    airTransducer: 'supra-aural',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: '',
    state: 'current',
    verification: made.signed(audiologist, 24 * 14),
    points: {
      ...points('air', false, conventional, [5, 5, 5, 10, 5, 10, 15, 10]),
      ...points('bone', false, [500, 1000, 2000, 4000], [5, 0, 5, 10]),
    },
  })
  made.put('tests', 'left-field', audiologist, 24 * 15, {
    ear: 'left',
    condition: 'sound-field',
    performedOn: made.day(15),
    origin: 'typed',
    note: 'Right ear plugged and muffed.',
    state: 'current',
    points: points('sound-field', false, [500, 1000, 2000, 3000, 4000], [60, 60, 55, 60, 60]),
  })
  made.put('tests', 'left-band', audiologist, 24 * 15, {
    ear: 'left',
    condition: 'aided',
    performedOn: made.day(15),
    device: 'Bone-conduction processor on a soft band, trial of two weeks',
    origin: 'typed',
    note: '',
    state: 'current',
    points: points('aided', false, [500, 1000, 2000, 3000, 4000], [35, 30, 30, 35, 40]),
  })
  made.put('speechTests', 'left-words', audiologist, 24 * 15, {
    ear: 'left',
    condition: 'aided',
    performedOn: made.day(15),
    material: 'monosyllables',
    listName: 'List 5',
    items: 20,
    right: 17,
    speechLevel: asDbSpl(65),
    note: 'Soft band.',
    state: 'current',
  })
  made.put('annotations', 'pin-notch', audiologist, 24 * 14, {
    place: { kind: 'pin', ear: 'left', frequency: 2000, level: asDbHl(10) },
    test: 'left-now',
    text: 'No more inner-ear loss than this',
  })
  made.put('annotations', 'band-gap', surgeon, 24 * 13, {
    place: { kind: 'band', ear: 'left', from: 500, to: 2000 },
    test: 'left-now',
    text: 'Gap of 55 dB: the largest that a closed canal makes',
  })
}

function distances(made: DemoCase): void {
  const scan = { ear: 'left', imaging: 'multislice-ct', voxelMm: 0.3, sliceSpacingMm: 0.6, remark: '' } as const
  made.put('fitMeasurements', 'fit-bone', surgeon, 27, {
    ...scan,
    place: 'transducer-site-bone-thickness',
    roomFor: 'bed-depth',
    distanceMm: 6,
    direction: 'across-slices',
  })
  made.put('fitMeasurements', 'fit-attic', surgeon, 27, {
    ...scan,
    place: 'incus-body-to-lateral-attic-wall',
    distanceMm: 1.2,
    direction: 'within-slice',
  })
}

const onSkull: DeviceOption = { deviceClass: 'active-transcutaneous-bone-conduction', couplingSite: 'skull' }

function sealed(made: DemoCase): void {
  const now = made.recordNow()
  made.put('forecasts', 'sealed-left', surgeon, 24, sealedFrom(now, onSkull))
  made.put('profiles', 'profile-own', audiologist, 27, {
    profile: inventedProfile(onSkull, 'harbour-clinic-transducer'),
  })
  made.put('scenarios', 'what-if-years', audiologist, 23, {
    title: 'The inner ear ages by twenty years',
    ...frozenFrom(now, onSkull, { innerEarYears: 20 }),
  })
}

function decisions(made: DemoCase): void {
  made.put('notes', 'note-scan', surgeon, 27, {
    kind: 'finding',
    rank: 'a0',
    cites: [],
    body: paragraphs(
      'Scan: facial nerve runs in front of the oval window. Mastoid well aired, bone 6 mm thick at the planned site.',
    ),
  })
  made.put('notes', 'note-class', surgeon, 26, {
    kind: 'decision',
    rank: 'a1',
    cites: [{ kind: 'test', id: 'left-band' }],
    body: paragraphs('Skull device preferred; direct coupling to be discussed by the panel.'),
  })
  made.put('votes', 'vote-class', moderator, 26, {
    question: 'Middle-ear implant or bone conduction?',
    note: 'note-class',
    options: ['Middle-ear implant', 'Bone conduction'],
    asksConfidence: false,
    result: { ...made.signed(moderator, 25.5), options: [{ votes: 1 }, { votes: 3 }], notVoted: 2 },
  })
  made.put('notes', 'note-reason', audiologist, 26, {
    kind: 'reason',
    rank: 'a2',
    cites: [{ kind: 'test', id: 'left-now' }],
    body: paragraphs(
      'Bone conduction is normal, so a skull device has all its output in hand; the soft band already gives 30 to 40 dB HL.',
    ),
  })
  made.put('contingencies', 'if-thin', surgeon, 26, {
    rank: 'a0',
    trigger: { kind: 'found', finding: 'the bone at the planned site is thinner than the bed' },
    plan: 'Move the site upwards, or use lifts as the labelling allows.',
    state: 'watching',
  })
  made.put('contingencies', 'if-aided-poor', audiologist, 26, {
    rank: 'a1',
    trigger: {
      kind: 'measured',
      measure: 'aided-threshold',
      from: 500,
      to: 4000,
      change: 'is-above',
      amountDb: 35,
      reference: 'none',
    },
    plan: 'Refit and look at the coupling of the coil; if it stands, scan the transducer.',
    state: 'met',
    moved: { ...made.signed(audiologist, 25), why: 'Soft band at 4 kHz: 40 dB HL' },
  })
  ;[
    'Identity, side, consent, records on screen',
    'Mark the site away from the pinna; measure the skin',
    'Expose the bone, drill the bed',
    'Fix the transducer, test it',
    'Close in layers',
  ].forEach((title, index) => {
    made.put('steps', `step-${index + 1}`, scribe, 26, {
      rank: `a${index}`,
      title,
      check: '',
      hazard: '',
      state: 'ahead',
      needs: index === 0 ? [] : [`step-${index}`],
    })
  })
  made.photograph('photo-model', scribe, 24, drawnCavity({ nicheOpened: false }), {
    caption: 'Drawing: a model of the middle ear, for the discussion of the approach',
  })
}

function floor(made: DemoCase): void {
  made.put('questions', 'q-direct', expertNorth, 20, {
    text: 'With the nerve in front of the oval window, is direct coupling still on the table?',
    state: 'raised',
    rank: 'a0',
    anchor: { kind: 'note', id: 'note-scan' },
  })
  made.put('questions', 'q-high', expertSouth, 19, {
    text: 'Why does the soft band fall off at 4 kHz, and will the implant do better?',
    state: 'raised',
    rank: 'a1',
    anchor: { kind: 'chart', place: { kind: 'band', ear: 'left', from: 3000, to: 4000 } },
  })
  made.put('questions', 'q-noise', expertSouth, 18, {
    text: 'Has speech in noise been measured with the band?',
    state: 'deferred',
    rank: 'a2',
    deferredTo: 'first fitting',
    movedAt: made.moment(17),
  })
  made.put('replies', 'r-1', audiologist, 18, {
    question: 'q-high',
    text: 'Skin and hair under the band take part of it.',
  })
  made.put('videoDelays', expertNorth.id, expertNorth, 21, { delaysMs: [8900, 9200, 9300], clockErrorMs: 30 })
  made.back('q-direct', expertSouth, 19)
}
