// Learned and pooled intervals hold what they promise when patients are as the prior says: mean and variance are drawn
// from it, then a series, then a further ear. 20,000 draws: the standard error of a share of 80 % is 0.3 %.
import { expect, it } from 'vitest'
import { intervalsOf } from '../../lib/forecast/distribution.ts'
import {
  type Belief,
  earCorrelation,
  learnFrom,
  pooledWithOtherEar,
  predictiveOf,
  priorFrom,
} from '../../lib/forecast/pooling.ts'
import { normalFrom } from '../fixtures/normal-draws.ts'

const draws = 20_000
const limits = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY }

function sharesInside(draw: () => { readonly belief: Belief; readonly ear: number }) {
  let outer = 0
  let inner = 0
  for (let index = 0; index < draws; index++) {
    const { belief, ear } = draw()
    const { meanDb, scaleDb, degreesOfFreedom } = belief
    const spread = degreesOfFreedom === undefined ? {} : { degreesOfFreedom }
    const { interval, interval50 } = intervalsOf({ centre: meanDb, scale: scaleDb, limits, ...spread })
    if (ear >= interval.low && ear <= interval.high) outer++
    if (ear >= interval50.low && ear <= interval50.high) inner++
  }
  return { outer: outer / draws, inner: inner / draws }
}

const isWithin2Percent = ({ outer, inner }: ReturnType<typeof sharesInside>) => {
  expect(Math.abs(outer - 0.8), `80 %: ${outer}`).toBeLessThanOrEqual(0.02)
  expect(Math.abs(inner - 0.5), `50 %: ${inner}`).toBeLessThanOrEqual(0.02)
}

it.each([1, 4, 20])('holds 80 and 50 % of further ears after a series of %d', (length) => {
  const normal = normalFrom(length)
  const prior = priorFrom({ meanDb: -3, sdDb: 8 })
  const chiSquared = () =>
    Array.from({ length: prior.degreesOfFreedom }, () => normal() ** 2).reduce((a, b) => a + b, 0)
  isWithin2Percent(
    sharesInside(() => {
      const sd = Math.sqrt((prior.degreesOfFreedom * prior.varianceDb2) / chiSquared())
      const mean = prior.meanDb + (sd / Math.sqrt(prior.ears)) * normal()
      const ear = () => mean + sd * normal()
      const belief = predictiveOf(learnFrom(prior, Array.from({ length }, ear)))
      return { belief, ear: ear() }
    }),
  )
})

it('holds 80 and 50 % of second ears that share half of the variance', () => {
  const normal = normalFrom(7)
  const published = { meanDb: -3, scaleDb: 8 }
  isWithin2Percent(
    sharesInside(() => {
      const shared = Math.sqrt(earCorrelation) * normal()
      const ear = () => published.meanDb + published.scaleDb * (shared + Math.sqrt(1 - earCorrelation) * normal())
      return { belief: pooledWithOtherEar(published, { observedDb: ear(), expected: published }), ear: ear() }
    }),
  )
})
