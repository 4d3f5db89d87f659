import { describe, expect, it } from 'vitest'
import { forecast } from '../../../lib/forecast/forecast.ts'
import { percutaneous } from '../../../lib/forecast/profiles/bone-conduction.ts'
import { readTeamProfile } from '../../../lib/forecast/team-profile.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { atFrequency, ear, forecastIn, inputs, planned } from '../../fixtures/forecast-ear.ts'

const units = { level: 'dB HL', gain: 'dB', length: 'mm', mass: 'mg' }
const labelling = { id: 'labelling', citation: 'Instructions for use, table of outputs', status: 'from labelling' }
const gain = percutaneous.couplings[0]?.gain
const byFrequency = [
  { frequency: 500, lowDbHl: 55, highDbHl: 58 },
  { frequency: 1000, lowDbHl: 68, highDbHl: 70 },
  { frequency: 2000, lowDbHl: 66, highDbHl: 68 },
  { frequency: 4000, lowDbHl: 60, highDbHl: 62 },
]
const output = { id: 'implant', lowDbHl: 55, highDbHl: 70, byFrequency, source: 'labelling' }
const body = {
  id: 'transducer',
  drive: 'skull-transducer',
  massMg: 12_000,
  envelope: [{ dimension: 'bed-depth', mm: 4.5 }],
  source: 'labelling',
}
const candidacy = {
  remark: 'As labelled.',
  limits: [
    { frequency: 1000, worstBoneDbHl: 45 },
    { frequency: 2000, worstBoneDbHl: 35 },
    { frequency: 4000, worstBoneDbHl: 45 },
  ],
  source: 'labelling',
}
const profile = {
  id: 'own-percutaneous',
  version: 1,
  deviceClass: 'percutaneous-bone-anchored',
  candidacy,
  couplings: [{ sites: ['skull'], gain, outputs: [output], wordAnchors: [] }],
  bodies: [body],
  sources: [labelling, ...percutaneous.sources],
}

const faultsIn = (content: unknown) => {
  const reading = readTeamProfile(content)
  return reading.ok ? [] : reading.faults.map(({ code, path, wanted }) => `${code} at ${path}: ${wanted}`)
}

describe("a team's own profile", () => {
  it('is read when it says all that the labelling says', () => {
    expect(readTeamProfile({ units, profile })).toEqual({ ok: true, profile })
  })

  it.each([
    {
      what: 'no mass',
      content: { units, profile: { ...profile, bodies: [{ ...body, massMg: undefined }] } },
      faults: ['missing at profile.bodies.0.massMg: mass in mg'],
    },
    {
      what: 'no limits of candidacy',
      content: { units, profile: { ...profile, candidacy: { ...candidacy, limits: undefined } } },
      faults: ['missing at profile.candidacy.limits: limits of candidacy by frequency'],
    },
    {
      what: 'no body',
      content: { units, profile: { ...profile, bodies: undefined } },
      faults: ['missing at profile.bodies: what is implanted: dimensions, mass and drive'],
    },
    {
      what: 'output at some frequencies alone',
      content: {
        units,
        profile: {
          ...profile,
          couplings: [
            { sites: ['skull'], gain, outputs: [{ ...output, byFrequency: byFrequency.slice(1, 3) }], wordAnchors: [] },
          ],
        },
      },
      faults: ['missing at profile.couplings.0.outputs.0.byFrequency: maximum output at 500, 4000 Hz'],
    },
    {
      what: 'another unit',
      content: { units: { ...units, length: 'in' }, profile },
      faults: ['wrong-unit at units.length: mm'],
    },
    { what: 'no units', content: { profile }, faults: ['missing at units: object'] },
    {
      what: 'a dimension in micrometres',
      content: {
        units,
        profile: { ...profile, bodies: [{ ...body, envelope: [{ dimension: 'bed-depth', mm: 4500 }] }] },
      },
      faults: ['out-of-range at profile.bodies.0.envelope.0.mm: at most 60'],
    },
    {
      what: 'an output as text',
      content: {
        units,
        profile: {
          ...profile,
          couplings: [{ sites: ['skull'], gain, outputs: [{ ...output, lowDbHl: '55' }], wordAnchors: [] }],
        },
      },
      faults: ['wrong-kind at profile.couplings.0.outputs.0.lowDbHl: number'],
    },
    {
      what: 'a field that nobody knows',
      content: { units, profile: { ...profile, colour: 'blue' } },
      faults: ['unknown-field at profile.colour: nothing'],
    },
    {
      what: 'limits that come from elsewhere',
      content: { units, profile: { ...profile, candidacy: { ...candidacy, source: 'class-by-cochlear-loss' } } },
      faults: ['contradiction at profile.candidacy.source: its source has the status "from labelling"'],
    },
    { what: 'nothing', content: undefined, faults: ['missing at : object'] },
  ])('is refused with $what, saying where', ({ content, faults }) => {
    expect(faultsIn(content)).toEqual(faults)
  })
})

describe('a forecast by it', () => {
  const reading = readTeamProfile({ units, profile })
  if (!reading.ok) throw new Error('expected the profile to be read')
  const own = (bone: Parameters<typeof audiogram>[0]) =>
    forecastIn(
      forecast(
        inputs({
          plan: planned({ deviceClass: 'percutaneous-bone-anchored', couplingSite: 'skull' }),
          profiles: [reading.profile],
          tests: ear({ bone: audiogram(bone) }),
        }),
      ),
    )

  it('has the headroom of the output at each frequency', () => {
    const given = own({ 500: 30, 1000: 30, 2000: 30, 3000: 30, 4000: 30 })
    const at = (frequency: 500 | 1000 | 3000) => atFrequency(given, frequency).headroom
    expect(at(500)).toMatchObject([{ low: 25, high: 28, verdict: 'outside', margin: { low: -5, high: -2 } }])
    expect(at(1000)).toMatchObject([{ low: 38, high: 40, verdict: 'inside' }])
    expect(at(3000)).toMatchObject([{ low: 25, high: 40, verdict: 'depends' }])
  })

  it('says by how much bone conduction is beyond the limits of the labelling', () => {
    const { limits } = own({ 500: 30, 1000: 45, 2000: 40, 4000: { none: 40 } }).candidacy
    expect(limits).toEqual([
      { frequency: 1000, worstBoneDbHl: 45, verdict: 'inside', beyondDb: 0 },
      { frequency: 2000, worstBoneDbHl: 35, verdict: 'outside', beyondDb: 5 },
      { frequency: 4000, worstBoneDbHl: 45, verdict: 'cannot-tell', beyondDb: -5 },
    ])
  })
})
