import { setImmediate as nextTurn } from 'node:timers/promises'
import { expect, it } from 'vitest'
import { mostLearned } from '../../../lib/interchange/experience.ts'
import { learnedFrom } from '../../../server/series/learned-from.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { caseOf, visitOf } from '../../fixtures/series-ears.ts'

const ears = (count: number) =>
  Array.from({ length: count }, (_, index) =>
    caseOf({
      operatedOn: index < mostLearned ? '2025-02-03' : '2020-02-03',
      visits: [
        visitOf({ bone: audiogram({ 1000: 40 }) }),
        visitOf({ visit: 'v', occasion: '12-months', aided: audiogram({ 1000: index < mostLearned ? 30 : 35 }) }),
      ],
    }),
  )

it('learns from the ears of an option that were operated on last, whatever the order of the cases', async () => {
  const learned = await learnedFrom(ears(mostLearned + 10).toReversed(), undefined)
  expect(learned).toHaveLength(mostLearned)
  expect(new Set(learned.map(({ gains }) => gains[0]?.gainDb))).toEqual(new Set([10]))
})

it('gives way to edits while it looks at many ears', async () => {
  const learning = learnedFrom(ears(200), undefined)
  let isDone = false
  void learning.finally(() => {
    isDone = true
  })
  let turns = 0
  for (; !isDone; turns++) await nextTurn()
  expect(turns).toBeGreaterThan(5)
})
