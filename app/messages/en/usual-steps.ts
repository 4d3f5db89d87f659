import type { StepText, UsualStepName } from '@/lib/board/operative-steps.ts'

/**
 * The usual steps in words, under the names of lib/board/operative-steps.ts. Generic textbook steps from memory, unconfirmed:
 * nobody has held them against a publication; labelling prevails.
 */
export const usualSteps = {
  identity: {
    title: 'Identity, side, consent, imaging on screen',
    check: 'Side marked, audiogram younger than 3 months, CT reviewed, device and coupler sizes present',
    hazard: 'Wrong side; missing coupler',
  },
  anaesthesia: {
    title: 'Anaesthesia without long relaxation, facial monitoring',
    check: 'Monitor stimulates and silences correctly',
    hazard: 'Undetected facial injury',
  },
  marking: {
    title: 'Mark implant and incision, inject',
    check: 'Implant template away from pinna and glasses, skin thickness measured (magnet limit of the labelling)',
    hazard: 'Flap too thick for transmission; scar over the implant',
  },
  incision: {
    title: 'Incision and periosteal pocket',
    check: 'Bleeding dry before the implant is opened',
    hazard: 'Haematoma',
  },
  mastoidectomy: {
    title: 'Cortical mastoidectomy',
    check: 'Tegmen, sigmoid sinus, antrum, lateral canal identified in that order',
    hazard: 'Dura, sinus, lateral canal',
  },
  antrotomy: {
    title: 'Antrotomy to the short process and the body of the incus',
    check: 'Short process and body seen and mobile',
    hazard: 'Incus luxation by the burr; high-speed contact: inner-ear trauma',
  },
  posteriorTympanotomy: {
    title: 'Posterior tympanotomy',
    check: 'Incus buttress kept, facial nerve under bone, chorda seen',
    hazard: 'Facial nerve, chorda, annulus',
  },
  transcanal: {
    title: 'Transcanal or combined route',
    check: 'Annulus lifted, chorda kept',
    hazard: 'Canal skin tear, perforation',
  },
  windowNiche: {
    title: 'Round-window niche: remove the overhang',
    check: 'Membrane seen whole, low speed, no suction on it',
    hazard: 'Perilymph leak, noise trauma, jugular bulb',
  },
  ossicles: {
    title: 'Test every ossicle',
    check: 'Malleus, incus, stapes each moved by a fine needle, window reflex; note mobile, stiff or fixed',
    hazard: 'Forcing a fixed stapes',
  },
  fixation: {
    title: 'Free or remove a fixation',
    check: 'Mobility again; sheet or gap against refixation',
    hazard: 'Inner-ear shock; conversion of the site',
  },
  bed: {
    title: 'Drill implant bed and cable channel',
    check: 'Depth and template fit, cable without tension',
    hazard: 'Dura, sinus, emissary vein',
  },
  skullBed: {
    title: 'Drill the bed of the bone-conduction transducer',
    check: 'Depth and template fit, bone thickness as imaged',
    hazard: 'Dura, sinus, emissary vein',
  },
  coagulation: {
    title: 'Last coagulation before the device leaves its pack',
    check: 'No monopolar from here on in head or neck; bipolar only, never touching the device, distance as labelled',
    hazard: 'Device or tissue damage by current',
  },
  implant: { title: 'Fix the implant', check: 'Stable to push; cable loop', hazard: 'Migration' },
  actuator: {
    title: 'Attach the actuator',
    check: 'Axis along the stapes piston, no contact with bone, chorda, drum or promontory; contact pressure light',
    hazard: 'Incus necrosis, dislocation, chain fixed by over-load',
  },
  couplingTest: {
    title: 'Coupling test',
    check:
      'Device or reversed transfer test if available, acoustic brainstem or window response, visible motion of the stapes; small change on touching the cable',
    hazard: 'False contact',
  },
  stabilise: {
    title: 'Stabilise (fascia, cartilage, cement where allowed)',
    check: 'Coupling test again',
    hazard: 'Cement on joint or stapes',
  },
  closure: {
    title: 'Cable and closure in layers',
    check: 'Cable under the bone edge; X-ray or scan if the position is in doubt',
    hazard: 'Cable in the canal, infection',
  },
  skullClosure: { title: 'Closure in layers', check: 'Wound dry, device covered as labelled', hazard: 'Infection' },
  function: {
    title: 'Facial function, nystagmus, hearing by fork',
    check: 'Recorded before leaving theatre and on day 1',
    hazard: 'Late palsy, vertigo',
  },
} as const satisfies Readonly<Record<UsualStepName, StepText>>
