import { describe, expect, it } from 'vitest'
import type { Experience, SeriesOutcome } from '../../../lib/forecast/experience.ts'
import { measuredGains } from '../../../lib/forecast/experience.ts'
import { forecast } from '../../../lib/forecast/forecast.ts'
import type { EstimatePrediction, Prediction } from '../../../lib/forecast/prediction.ts'
import type { FrequencyHz } from '../../../lib/units/frequencies.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { atFrequency, forecastIn, inputs } from '../../fixtures/forecast-ear.ts'

const gains = (gainDb: number): ReadonlyMap<FrequencyHz, number> =>
  new Map(([500, 1000, 2000, 4000] as const).map((frequency) => [frequency, gainDb]))

const roundWindow = { deviceClass: 'active-middle-ear-implant', couplingSite: 'round-window' } as const
const patients = (
  gainsDb: readonly number[],
  option: Pick<SeriesOutcome, 'deviceClass' | 'couplingSite'> = roundWindow,
) => gainsDb.map((gainDb, index) => ({ ...option, patient: `p${index}`, gainDb: gains(gainDb) }))

function estimateIn(prediction: Prediction): EstimatePrediction {
  if (prediction.kind !== 'estimate') throw new Error(`expected an estimate, got ${prediction.kind}`)
  return prediction
}

const withExperience = (experience: Experience | undefined) => forecastIn(forecast(inputs({ experience })))
const gainAt1k = (experience: Experience | undefined) =>
  estimateIn(atFrequency(withExperience(experience), 1000).effectiveGain)

describe("the team's own series", () => {
  // published mean -3 dB counts as 10 ears: (10 x -3 + 10 x 7) / 20 = 2
  it('draws the gain to its mean', () => {
    const learned = gainAt1k({ series: patients([3, 5, 7, 7, 7, 7, 7, 9, 9, 9]) })
    expect(learned.value).toBeCloseTo(2, 9)
    expect(learned.basis.inputs.find(({ name }) => name === 'series-gain')).toMatchObject({ value: 7, n: 10 })
    expect(learned.basis.remarks).toContain('learned-from-series')
    expect(learned.basis.sources.map(({ id }) => id)).toContain('prior-strength')
  })

  it('makes the interval Student t', () => {
    const { distribution } = gainAt1k({ series: patients([-3, -3, -3]) })
    expect(distribution?.degreesOfFreedom).toBeCloseTo(13, 9)
  })

  it('narrows the spread when its ears agree and widens it when they do not', () => {
    const width = (experience: Experience) => {
      const { low, high } = gainAt1k(experience).interval
      return high - low
    }
    const published = width({ series: [] })
    expect(width({ series: patients([-3, -4, -2, -3, -4, -2, -3, -4, -2, -3, -4, -2]) })).toBeLessThan(published)
    expect(width({ series: patients([-30, 25, -30, 25, -30, 25]) })).toBeGreaterThan(published)
  })

  it('counts one ear a patient and only the same class and site', () => {
    const [first] = patients([7])
    if (first === undefined) throw new Error('one patient')
    const once = gainAt1k({ series: [first] })
    expect(gainAt1k({ series: [first, { ...first, gainDb: gains(40) }] })).toEqual(once)
    const other = patients([7, 7], { deviceClass: 'active-middle-ear-implant', couplingSite: 'incus-body' })
    expect(gainAt1k({ series: other })).toEqual(gainAt1k(undefined))
  })

  it('moves mean, index and word score with it', () => {
    const plain = withExperience(undefined)
    const better = withExperience({ series: patients([9, 10, 11, 10, 10, 10]) })
    const mean = (of: typeof plain) => estimateIn(of.fourTone.aidedThreshold).value
    expect(mean(better)).toBeLessThan(mean(plain))
    const words = (of: typeof plain) =>
      estimateIn(of.wordScores[0]?.score ?? { kind: 'absent', reason: 'undetermined' })
    expect(words(better).value).toBeGreaterThan(words(plain).value)
    expect(words(better).basis.inputs.map(({ name }) => name)).toContain('gain-beyond-published')
    const index = (of: typeof plain) =>
      estimateIn(of.speech[1]?.aided ?? { kind: 'absent', reason: 'undetermined' }).value
    expect(index(better)).toBeGreaterThan(index(plain))
  })
})

describe("the patient's other ear", () => {
  // 8 dB above the -3 dB that were expected there: half of it is the patient's
  it('draws the gain half of its own deviation', () => {
    const pooled = gainAt1k({ series: [], otherEar: { ...roundWindow, gainDb: gains(5) } })
    expect(pooled.value).toBeCloseTo(1, 9)
    expect(pooled.distribution?.scale).toBeCloseTo(8 * Math.sqrt(0.75), 9)
    expect(pooled.basis.remarks).toContain('pooled-with-other-ear')
  })
  it('is held against what its own site leads to expect', () => {
    // stapes head and oval window: 0 dB expected at 1 kHz
    const other = { deviceClass: 'active-middle-ear-implant', couplingSite: 'stapes-head', gainDb: gains(0) } as const
    const plan = { ...roundWindow, ear: 'right', malleus: 'mobile', incus: 'mobile', stapes: 'mobile' } as const
    const at = forecast(
      inputs({ plan: { ...plan, couplingSite: 'oval-window' }, experience: { series: [], otherEar: other } }),
    )
    expect(estimateIn(atFrequency(forecastIn(at), 1000).effectiveGain).value).toBeCloseTo(0, 9)
  })
  it('says nothing of another class or kind of site', () => {
    const incus = { deviceClass: 'active-middle-ear-implant', couplingSite: 'incus-body', gainDb: gains(20) } as const
    const skull = { deviceClass: 'percutaneous-bone-anchored', couplingSite: 'skull', gainDb: gains(20) } as const
    for (const otherEar of [incus, skull]) expect(gainAt1k({ series: [], otherEar })).toEqual(gainAt1k(undefined))
  })
})

it('takes a gain from two heard thresholds alone', () => {
  const bone = audiogram({ 500: 30, 1000: 35, 2000: { none: 70 }, 4000: 40 })
  const aided = audiogram({ 500: 40, 1000: 30, 2000: 50, 4000: { none: 90 } })
  expect([...measuredGains({ bone, aided })]).toEqual([
    [500, -10],
    [1000, 5],
  ])
})
