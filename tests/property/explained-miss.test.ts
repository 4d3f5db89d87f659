// A search over many causes must not find one too often where there is none: results are drawn from the sealed forecast
// itself, with the correlation that its own spreads imply, and the share that is "explained" is counted. Markov's
// inequality promises at most 5 %; the standard error over 600 draws is 0.9 %.
import { describe, expect, it } from 'vitest'
import { explainMiss, type MissExplanation } from '../../lib/forecast/explained-miss.ts'
import { lossByFrequency } from '../../lib/forecast/loss-by-frequency.ts'
import { createMiddleEar } from '../../lib/middle-ear/drive-change.ts'
import type { FrequencyHz } from '../../lib/units/frequencies.ts'
import { thresholds } from '../fixtures/ear-courses.ts'
import { incusForecast } from '../fixtures/incus-forecast.ts'
import { normalFrom } from '../fixtures/normal-draws.ts'

const sealed = incusForecast()
const middleEar = createMiddleEar()
const expected = sealed.byFrequency.flatMap(({ frequency, aidedThreshold: at }) =>
  at.kind === 'estimate' && at.distribution !== undefined
    ? [{ frequency, mean: at.distribution.mean, sd: at.distribution.sd }]
    : [],
)

/** Equal between all pairs, so that the mean of four tones has its sealed standard deviation. */
function correlation(): number {
  const mean = sealed.fourTone.aidedThreshold
  if (mean.kind !== 'estimate' || mean.distribution === undefined) throw new TypeError('the mean is an estimate')
  const tones = expected.filter(({ frequency }) => [500, 1000, 2000, 4000].includes(frequency))
  let variance = 0
  let between = 0
  for (const a of tones)
    for (const b of tones)
      if (a === b) variance += a.sd ** 2
      else between += a.sd * b.sd
  return (16 * mean.distribution.sd ** 2 - variance) / between
}

const measured = (levelAt: (at: (typeof expected)[number]) => number) =>
  thresholds(Object.fromEntries(expected.map((at) => [at.frequency, levelAt(at)])) as Record<FrequencyHz, number>)

const bestOf = (explanation: MissExplanation) => {
  if (explanation.kind !== 'compared') throw new TypeError(`compared nothing: ${explanation.reason}`)
  return explanation
}

describe('what explains a miss', () => {
  it('is rarely found where the forecast is right', () => {
    const draw = normalFrom(7)
    const r = correlation()
    expect(r).toBeGreaterThan(0)
    let explained = 0
    const draws = 600
    for (let n = 0; n < draws; n++) {
      const common = draw()
      const aided = measured(({ mean, sd }) => mean + sd * (Math.sqrt(r) * common + Math.sqrt(1 - r) * draw()))
      if (bestOf(explainMiss({ sealed, aided, middleEar })).verdict === 'explained') explained++
    }
    expect(explained / draws).toBeLessThanOrEqual(0.05)
  })

  it('is what happened, where that is far from the forecast', () => {
    const scenario = { fixation: { at: 'malleus-and-incus', times: 1000 } } as const
    const losses = new Map(
      lossByFrequency({ scenario, actuator: 'floating-mass', middleEar }, 'incus-body').map(({ frequency, loss }) => [
        frequency,
        loss.lossDb,
      ]),
    )
    const aided = measured(({ frequency, mean }) => mean + (losses.get(frequency) ?? 0))
    const { verdict, tried, chanceAtMost } = bestOf(explainMiss({ sealed, aided, middleEar }))
    expect(tried[0]?.cause).toMatchObject({ scenario: { fixation: { times: 1000 } } })
    expect([verdict, chanceAtMost < 0.05]).toEqual(['explained', true])
  })

  it('may be the inner ear, where its bone conduction was measured worse', () => {
    const bone = thresholds({ 500: 60, 1000: 65, 2000: 75, 3000: 80, 4000: 85 })
    const aided = measured(({ mean }) => mean + 30)
    const { tried } = bestOf(explainMiss({ sealed, aided, bone, middleEar }))
    expect(tried.some(({ cause }) => cause.kind === 'inner-ear')).toBe(true)
    expect(tried[0]?.cause).toEqual({ kind: 'inner-ear' })
  })

  it('is nothing where the result is as forecast', () => {
    const { verdict, chanceAtMost } = bestOf(explainMiss({ sealed, aided: measured(({ mean }) => mean), middleEar }))
    expect([verdict, chanceAtMost]).toEqual(['no-better-than-chance', 1])
  })

  it('is not asked of a single frequency', () => {
    expect(explainMiss({ sealed, aided: thresholds({ 1000: 60 }), middleEar })).toEqual({
      kind: 'absent',
      reason: 'too-few-frequencies',
    })
  })
})
