import type { Plan } from '../../lib/board/records/plan.ts'
import { paragraphs } from '../../lib/board/rich-text.ts'
import type { DeviceOption } from '../../lib/devices/classes.ts'
import { asDbHl, asDbSpl } from '../../lib/units/levels.ts'
import { conventional, DemoCase, points } from './demo-case.ts'
import { drawnCavity } from './drawn-field.ts'
import { audiologist, expertEast, expertNorth, expertSouth, moderator, scribe, surgeon } from './people.ts'
import { frozenFrom, inventedProfile, sealedFrom } from './sealed.ts'

/** Invented: a man of 47 with an open cavity on the right, mixed loss, incus missing; the left ear has a device already. */
export function cavityCase(now: Date): DemoCase {
  const made = new DemoCase('demo-heron', now)
  describe(made)
  rightEar(made)
  leftEar(made)
  distances(made)
  sealed(made)
  decisions(made)
  steps(made)
  floor(made)
  visits(made)
  return made
}

function describe(made: DemoCase): void {
  made.put('header', 'only', moderator, 2, {
    pseudonym: 'Heron',
    ear: 'right',
    ageYears: 47,
    sex: 'male',
    summary:
      'Open mastoid cavity on the right after cholesteatoma surgery nine years ago, dry for three years. Mixed loss. Incus missing, stapes superstructure present and mobile at the last look. Left ear: active transcutaneous bone-conduction device for three years.',
    phase: 'in-theatre',
    pathology: 'cholesteatoma',
    tags: ['open cavity'],
    consent: {
      state: 'recorded',
      how: 'Written consent to broadcasting, filed at the clinic',
      ...made.signed(surgeon, 26),
    },
  })
  made.put('plan', 'only', surgeon, 20, {
    ear: 'right',
    deviceClass: 'active-middle-ear-implant',
    couplingSite: 'round-window',
    malleus: 'stiff',
    incus: 'missing',
    stapes: 'mobile',
    earCanal: 'mould-not-tolerated',
    earChanges: [{ kind: 'incus-missing' }, { kind: 'cavity-open' }],
    approach:
      'Through the old cavity; cavity obliterated with fat over the cable. Round-window niche first, stapes head as the second choice.',
    aim: 'Close the air-bone gap from 0.5 to 4 kHz and leave headroom for ten years of inner-ear ageing.',
  })
  made.put('mainScreen', 'only', moderator, 0.2, { showing: { kind: 'audiogram', ear: 'right' } })
  made.put('upNext', 'next-question', moderator, 0.3, { rank: 'a0', showing: { kind: 'question', id: 'q-high' } })
  made.put('upNext', 'next-options', moderator, 0.3, { rank: 'a1', showing: { kind: 'options' } })
}

function rightEar(made: DemoCase): void {
  made.put('tests', 'right-now', audiologist, 24 * 9, {
    ear: 'right',
    condition: 'unaided',
    performedOn: made.day(9),
    airTransducer: 'insert',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: 'Masked throughout. Bone conduction repeated at 2 kHz.',
    state: 'current',
    verification: made.signed(audiologist, 24 * 8),
    points: {
      ...points('air', true, conventional, [60, 65, 65, 65, 70, 75, 85, 'NR95']),
      ...points('air', false, [125], [60]),
      ...points('bone', true, [500, 1000, 2000, 3000, 4000], [25, 25, 40, 40, 45]),
    },
    repeatAt1000: asDbHl(60),
  })
  made.put('tests', 'right-earlier', audiologist, 24 * 740, {
    ear: 'right',
    condition: 'unaided',
    performedOn: made.day(740),
    airTransducer: 'supra-aural',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: 'Before the last cavity revision.',
    state: 'superseded',
    verification: made.signed(audiologist, 24 * 739),
    closing: {
      ...made.signed(audiologist, 24 * 9),
      reason: 'Newer test with insert earphones',
      supersededBy: 'right-now',
    },
    points: {
      ...points('air', true, conventional, [55, 60, 60, 55, 60, 65, 75, 80]),
      ...points('bone', true, [500, 1000, 2000, 3000, 4000], [20, 20, 35, 35, 40]),
    },
  })
  made.put('tests', 'right-swapped', scribe, 24 * 7, {
    ear: 'right',
    condition: 'unaided',
    performedOn: made.day(9),
    origin: 'imported',
    note: '',
    state: 'entered-in-error',
    closing: {
      ...made.signed(audiologist, 24 * 7 - 1),
      reason: 'Ears exchanged in the file: these are the thresholds of the left ear',
    },
    points: {
      ...points('air', false, conventional, [50, 55, 55, 50, 55, 55, 60, 65]),
      ...points('bone', false, [500, 1000, 2000, 4000], [10, 10, 20, 25]),
    },
  })
  made.put('speechTests', 'right-words', audiologist, 24 * 9, {
    ear: 'right',
    condition: 'unaided',
    performedOn: made.day(9),
    material: 'monosyllables',
    listName: 'List 7',
    items: 20,
    right: 17,
    speechLevel: asDbSpl(100),
    note: 'Best score, left ear masked.',
    state: 'current',
    verification: made.signed(audiologist, 24 * 8),
  })
  made.put('speechTests', 'right-reception', audiologist, 24 * 9, {
    ear: 'right',
    condition: 'unaided',
    performedOn: made.day(9),
    material: 'disyllables',
    listName: '',
    receptionThreshold: asDbHl(60),
    note: 'Left ear masked.',
    state: 'current',
    verification: made.signed(audiologist, 24 * 8),
  })
  made.put('annotations', 'pin-inner-ear', audiologist, 24 * 8, {
    place: { kind: 'pin', ear: 'right', frequency: 2000, level: asDbHl(40) },
    test: 'right-now',
    text: 'Repeated, masked: this is not an artefact of a stiff chain alone.',
  })
  made.put('annotations', 'band-speech', surgeon, 24 * 6, {
    place: { kind: 'band', ear: 'right', from: 1000, to: 4000 },
    test: 'right-now',
    text: 'What we operate for: the gap here is 35 dB',
  })
  made.put('annotations', 'pin-high', scribe, 24 * 5, {
    place: { kind: 'pin', ear: 'right', frequency: 8000, level: asDbHl(95) },
    test: 'right-now',
    text: 'No response at the limit: say so in the report',
  })
}

function leftEar(made: DemoCase): void {
  made.put('tests', 'left-now', audiologist, 24 * 9, {
    ear: 'left',
    condition: 'unaided',
    performedOn: made.day(9),
    airTransducer: 'insert',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: '',
    state: 'current',
    verification: made.signed(audiologist, 24 * 8),
    points: {
      ...points('air', true, conventional, [50, 55, 55, 50, 55, 55, 60, 65]),
      ...points('bone', true, [500, 1000, 2000, 3000, 4000], [10, 10, 20, 25, 25]),
    },
    repeatAt1000: asDbHl(55),
  })
  made.put('tests', 'left-before', audiologist, 24 * 1130, {
    ear: 'left',
    condition: 'unaided',
    performedOn: made.day(1130),
    airTransducer: 'insert',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: 'Before the device on this side.',
    state: 'superseded',
    verification: made.signed(audiologist, 24 * 1129),
    closing: { ...made.signed(audiologist, 24 * 9), reason: 'Tested again', supersededBy: 'left-now' },
    points: {
      ...points('air', true, conventional, [50, 50, 55, 50, 50, 55, 55, 60]),
      ...points('bone', true, [500, 1000, 2000, 3000, 4000], [10, 10, 15, 20, 20]),
    },
  })
  made.put('tests', 'left-field', audiologist, 24 * 9, {
    ear: 'left',
    condition: 'sound-field',
    performedOn: made.day(9),
    origin: 'typed',
    note: 'Right ear plugged and muffed.',
    state: 'current',
    points: points('sound-field', false, [500, 1000, 2000, 3000, 4000], [55, 55, 50, 55, 55]),
  })
  made.put('tests', 'left-aided', audiologist, 24 * 9, {
    ear: 'left',
    condition: 'aided',
    performedOn: made.day(9),
    device: 'Active transcutaneous bone conduction, three years of use',
    origin: 'typed',
    note: 'Right ear plugged and muffed.',
    state: 'current',
    verification: made.signed(audiologist, 24 * 8),
    points: points('aided', false, [250, 500, 1000, 2000, 3000, 4000, 6000], [35, 25, 20, 25, 30, 35, 45]),
  })
  made.put('speechTests', 'left-words', audiologist, 24 * 9, {
    ear: 'left',
    condition: 'aided',
    performedOn: made.day(9),
    material: 'monosyllables',
    listName: 'List 3',
    items: 20,
    right: 18,
    speechLevel: asDbSpl(65),
    note: '',
    state: 'current',
  })
  for (const [condition, level] of [
    ['unaided', 50],
    ['aided', 25],
  ] as const)
    made.put('speechTests', `left-reception-${condition}`, audiologist, 24 * 9, {
      ear: 'left',
      condition,
      performedOn: made.day(9),
      material: 'disyllables',
      listName: '',
      receptionThreshold: asDbHl(level),
      note: '',
      state: 'current',
    })
}

function distances(made: DemoCase): void {
  const scan = { ear: 'right', imaging: 'cone-beam-ct', voxelMm: 0.15, scannedOn: made.day(40) } as const
  made.put('fitMeasurements', 'fit-niche', surgeon, 24 * 20, {
    ...scan,
    place: 'round-window-niche',
    roomFor: 'diameter',
    distanceMm: 2.1,
    direction: 'oblique',
    remark: 'Width behind the overhang; membrane itself not seen whole on the scan.',
  })
  made.put('fitMeasurements', 'fit-promontory', surgeon, 24 * 20, {
    ...scan,
    place: 'stapes-head-to-promontory',
    roomFor: 'length',
    distanceMm: 2.2,
    direction: 'within-slice',
    observerSdMm: 0.2,
    remark: '',
  })
}

const roundWindow: DeviceOption = { deviceClass: 'active-middle-ear-implant', couplingSite: 'round-window' }
const leftDevice: DeviceOption = { deviceClass: 'active-transcutaneous-bone-conduction', couplingSite: 'skull' }

/** The left ear's forecast was sealed before its device; its result is in the test with the device. */
function sealed(made: DemoCase): void {
  const now = made.recordNow()
  const before = now.tests.filter(({ id }) => id === 'left-before')
  const ofLeft = {
    ...now,
    plan: openedPlan(now.plan, leftDevice),
    tests: before.map(({ closing: _, ...test }) => ({ ...test, state: 'current' as const })),
  }
  made.put('forecasts', 'sealed-left', surgeon, 24 * 1120, sealedFrom(ofLeft, leftDevice))
  made.put('forecasts', 'sealed-right', surgeon, 18, sealedFrom(now, roundWindow))
  made.put('profiles', 'profile-own', audiologist, 24 * 5, {
    profile: inventedProfile(roundWindow, 'harbour-clinic-implant'),
  })
  made.put('scenarios', 'what-if-contact', surgeon, 1.4, {
    title: 'The fat shrinks and the actuator loses 8 dB of its contact',
    ...frozenFrom(now, roundWindow, { contact: { lossDb: 8 } }),
    question: 'q-deferred',
  })
}

/** The plan that stood before the left ear was operated on: its middle ear was as in the evidence. */
function openedPlan(plan: Plan, option: DeviceOption): Plan {
  const { earChanges: _changes, earCanal: _canal, ...rest } = plan
  return { ...rest, ...option, ear: 'left', malleus: 'mobile', incus: 'mobile', stapes: 'mobile' }
}

function visits(made: DemoCase): void {
  made.planVisits(audiologist, 1, 0)
  made.put('visitItems', 'item-fat', moderator, 1, {
    visit: 'visit-6-months',
    words: 'Aided thresholds at 0.5 to 4 kHz: does the fat change the load on the actuator?',
    wanted: { ear: 'right', route: 'aided', frequencies: [500, 1000, 2000, 3000, 4000] },
    question: 'q-deferred',
    state: 'open',
  })
}

function decisions(made: DemoCase): void {
  made.put('notes', 'note-cavity', surgeon, 3, {
    kind: 'finding',
    rank: 'a0',
    step: 'step-3',
    cites: [],
    body: paragraphs(
      'Cavity dry. Facial ridge low, nerve covered.\nStapes superstructure intact, moves with the needle; round-window reflex seen.',
    ),
  })
  made.put('notes', 'note-window', surgeon, 2, {
    kind: 'decision',
    rank: 'a1',
    step: 'step-4',
    cites: [
      { kind: 'annotation', id: 'band-speech' },
      { kind: 'question', id: 'q-called' },
    ],
    body: paragraphs(
      'Round window first. If the membrane cannot be seen whole after the overhang is removed, go to the stapes head.',
    ),
  })
  made.put('votes', 'vote-window', moderator, 2.2, {
    question: 'Which site would you take in this cavity?',
    note: 'note-window',
    options: ['Round window', 'Stapes head', 'Bone conduction instead'],
    asksConfidence: true,
    result: {
      ...made.signed(moderator, 2.1),
      options: [
        { votes: 4, confidence: { low: 60, median: 75, high: 90 } },
        { votes: 2, confidence: { low: 60, median: 65, high: 70 } },
        { votes: 0 },
      ],
      confidence: { low: 60, median: 70, high: 90 },
      notVoted: 1,
    },
  })
  made.put('notes', 'note-why', surgeon, 2, {
    kind: 'reason',
    rank: 'a2',
    cites: [{ kind: 'test', id: 'right-now' }],
    body: paragraphs(
      'Bone conduction of 40 to 45 dB at 2 to 4 kHz leaves too little headroom for a skull-driven device on this side.',
    ),
  })
  made.put('contingencies', 'if-stapes', surgeon, 20, {
    rank: 'a0',
    trigger: { kind: 'found', finding: 'the stapes is fixed' },
    plan: 'Do not open the inner ear. Round window if the membrane is free; otherwise close and stage.',
    state: 'stood-down',
    moved: { ...made.signed(surgeon, 2.5), why: 'Stapes found mobile' },
  })
  made.put('contingencies', 'if-gain-falls', surgeon, 20, {
    rank: 'a1',
    trigger: {
      kind: 'measured',
      measure: 'effective-gain',
      from: 2000,
      to: 4000,
      change: 'falls-by',
      amountDb: 10,
      reference: 'first-fitting',
    },
    plan: 'Exchange the external parts, then an output test; scan for contact; consider relocation to the stapes head.',
    state: 'watching',
  })
  made.put('contingencies', 'if-bone-falls', audiologist, 19, {
    rank: 'a2',
    trigger: {
      kind: 'measured',
      measure: 'bone-conduction',
      from: 1000,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'before-surgery',
    },
    plan: 'Repeat within a week. If it stands: treat as an inner-ear event at once, refit, work out headroom anew.',
    state: 'watching',
  })
}

interface PlannedStep {
  readonly title: string
  readonly check: string
  readonly hazard: string
  readonly state: 'done' | 'under-way' | 'ahead'
  /** places of its prerequisites in this list, from 1 */
  readonly needs: readonly number[]
}

const operation: readonly PlannedStep[] = [
  {
    title: 'Identity, side, consent, records on screen',
    check: 'Side marked; test less than three months old; device and coupler sizes present',
    hazard: 'Wrong side; missing coupler',
    state: 'done',
    needs: [],
  },
  {
    title: 'Open the old cavity, identify the facial ridge',
    check: 'Monitor stimulates and silences',
    hazard: 'Facial nerve in scar',
    state: 'done',
    needs: [1],
  },
  {
    title: 'Test every ossicle',
    check: 'Each moved by a fine needle; window reflex noted',
    hazard: 'Forcing a fixed stapes',
    state: 'done',
    needs: [2],
  },
  {
    title: 'Remove the overhang of the round-window niche',
    check: 'Membrane seen whole; low speed; no suction on it',
    hazard: 'Perilymph leak, noise trauma, jugular bulb',
    state: 'under-way',
    needs: [3],
  },
  {
    title: 'Last coagulation before the device leaves its pack',
    check: 'No monopolar from here on',
    hazard: 'Device or tissue damage by current',
    state: 'ahead',
    needs: [2],
  },
  {
    title: 'Fix the implant, place the actuator with its coupler',
    check: 'Axis at right angles to the membrane; no bone contact',
    hazard: 'Over-load; dislocation',
    state: 'ahead',
    needs: [3, 4, 5],
  },
  {
    title: 'Coupling test',
    check: 'Measured response, or visible motion of the stapes',
    hazard: 'False contact',
    state: 'ahead',
    needs: [6],
  },
  {
    title: 'Cover the cable, obliterate, close in layers',
    check: 'Coupling test repeated',
    hazard: 'Cable exposure',
    state: 'ahead',
    needs: [7],
  },
]

function steps(made: DemoCase): void {
  // The second step began while the records of the first were still awaited.
  const endedHoursAgo = [2.2, 1.7, 1]
  made.put('stepExceptions', 'without-records', scribe, 2.3, {
    step: 'step-2',
    need: 'step-1',
    reason: 'Identity, side and consent are checked; only the scans are still on their way to the screen.',
  })
  operation.forEach(({ needs, ...step }, index) => {
    const ended = endedHoursAgo[index]
    made.put('steps', `step-${index + 1}`, scribe, 30, {
      ...step,
      rank: `a${index}`,
      needs: needs.map((place) => `step-${place}`),
      ...(step.state === 'ahead' ? {} : { startedAt: made.moment(3 - index * 0.7) }),
      ...(ended === undefined ? {} : { endedAt: made.moment(ended) }),
    })
  })
  made.photograph('photo-cavity', scribe, 1.2, drawnCavity({ nicheOpened: false }), {
    step: 'step-3',
    caption: 'Drawing: the cavity is open, the head of the stapes moves freely',
  })
  made.photograph('photo-niche', scribe, 0.5, drawnCavity({ nicheOpened: true }), {
    step: 'step-4',
    caption: 'Drawing: overhang of the niche gone, the window is seen whole',
  })
}

function floor(made: DemoCase): void {
  made.put('questions', 'q-called', expertNorth, 1.2, {
    text: 'How much of the membrane do you need to see before you accept the round window?',
    pictureAt: made.momentSeen(1.2, 12_050),
    anchor: { kind: 'step', id: 'step-4' },
    state: 'called',
    rank: 'a0',
    movedAt: made.moment(0.3),
    movedBy: moderator.id,
  })
  made.put('questions', 'q-high', expertSouth, 1.1, {
    text: 'What do we lose at 6 kHz compared with the stapes head?',
    pictureAt: made.momentSeen(1.1, 24_500),
    anchor: { kind: 'chart', place: { kind: 'pin', ear: 'right', frequency: 6000, level: asDbHl(85) } },
    state: 'raised',
    rank: 'a1',
    themes: ['high frequencies'],
  })
  made.put('questions', 'q-high-too', expertEast, 1, {
    text: 'Is the high-frequency output of both sites the same?',
    anchor: { kind: 'chart', place: { kind: 'band', ear: 'right', from: 4000, to: 8000 } },
    state: 'raised',
    rank: 'a2',
    foldedInto: 'q-high',
  })
  made.put('questions', 'q-other-ear', expertEast, 0.8, {
    text: 'The left device does well at 1 kHz and poorly at 4 kHz. Does that change the choice on the right?',
    anchor: { kind: 'option', option: roundWindow },
    state: 'raised',
    rank: 'a3',
  })
  made.put('questions', 'q-answered', expertSouth, 2.6, {
    text: 'Was the stapes tested under direct view?',
    anchor: { kind: 'step', id: 'step-3' },
    state: 'answered',
    rank: 'a4',
    movedAt: made.moment(2.3),
    answer: {
      text: 'Yes: it moves with the needle and the window reflex is seen.',
      saidBy: 'Dr Alder',
      step: 'step-3',
      ...made.signed(scribe, 2.3),
    },
  })
  made.put('questions', 'q-deferred', expertNorth, 2, {
    text: 'Will the fat shrink and change the load on the actuator?',
    anchor: { kind: 'scenario', id: 'what-if-contact' },
    state: 'deferred',
    rank: 'a5',
    movedAt: made.moment(1.5),
    deferredTo: 'the six-month visit',
  })
  made.put('questions', 'q-aside', expertEast, 1.9, {
    text: 'Can the camera be a little brighter?',
    state: 'set-aside',
    rank: 'a6',
    movedAt: made.moment(1.8),
  })
  made.put('replies', 'r-1', surgeon, 0.5, {
    question: 'q-high',
    text: 'We have little evidence above 4 kHz; the forecast says so.',
  })
  made.put('replies', 'r-2', expertNorth, 0.4, {
    question: 'q-high',
    text: 'In cadaver work both were alike above 1 kHz when the contact was good.',
  })
  made.put('videoDelays', expertNorth.id, expertNorth, 3, { delaysMs: [11_600, 12_050, 12_300], clockErrorMs: 22 })
  made.put('videoDelays', expertSouth.id, expertSouth, 3, { delaysMs: [24_100, 24_500, 25_200], clockErrorMs: 41 })
  made.back('q-called', expertEast, 1)
  made.back('q-called', expertSouth, 1)
  made.back('q-high', expertNorth, 0.9)
  made.back('q-other-ear', expertSouth, 0.5)
}
