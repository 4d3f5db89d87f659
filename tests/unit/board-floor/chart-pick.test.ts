import { expect, test } from 'vitest'
import { createChartPick } from '../../../app/board/chart-pick.ts'
import { ChartPlace } from '../../../lib/board/records/annotation.ts'

const place = ChartPlace.parse({ kind: 'pin', ear: 'right', frequency: 4000, level: 45 })

test('a place is taken once, by the last one that waited for it', () => {
  const pick = createChartPick()
  const taken: string[] = []
  pick.startPick(() => taken.push('first'))
  pick.startPick(() => taken.push('second'))
  expect(pick.getSnapshot().picking).toBe(true)
  expect(pick.offerPick(place)).toBe(true)
  expect(taken).toEqual(['second'])
  expect(pick.getSnapshot().picking).toBe(false)
  expect(pick.offerPick(place)).toBe(false)
})

test('whoever stops waiting is given nothing', () => {
  const pick = createChartPick()
  pick.startPick(() => expect.unreachable())
  pick.stopPick()
  expect(pick.offerPick(place)).toBe(false)
})

test('subscribers hear of a highlight and of its end', () => {
  const pick = createChartPick()
  const seen: (typeof place | undefined)[] = []
  const leave = pick.subscribe(() => seen.push(pick.getSnapshot().highlighted))
  pick.highlight(place)
  pick.highlight(undefined)
  leave()
  pick.highlight(place)
  expect(seen).toEqual([place, undefined])
  expect(pick.getSnapshot().highlighted).toEqual(place)
})
