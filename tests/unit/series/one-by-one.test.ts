import { setImmediate as nextTurn } from 'node:timers/promises'
import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { readFilter } from '../../../lib/interchange/series-filter.ts'
import { KeptOutcomes } from '../../../server/series/kept-outcomes.ts'
import { Series } from '../../../server/series/series.ts'
import { type ApiInstallation, startApiInstallation } from '../../support/api-installation.ts'

let board: ApiInstallation
beforeEach(async () => {
  board = await startApiInstallation(() => new Date('2026-05-04T10:00:00.000Z'))
})
afterEach(async () => {
  vi.restoreAllMocks()
  await board.stop()
})

const filterOf = (query: string) => {
  const read = readFilter(new URLSearchParams(query))
  if (!read.ok) throw new RangeError(query)
  return read.filter
}

it('adds up one series at a time, however many are asked for, also after one that failed', async () => {
  const begun: string[] = []
  let fail = (): void => undefined
  vi.spyOn(KeptOutcomes.prototype, 'resultsOf').mockImplementation((_, at) => {
    begun.push(at)
    return begun.length > 1
      ? Promise.resolve([])
      : new Promise((_, reject) => (fail = () => reject(new Error('first'))))
  })
  const series = new Series(board.store, { info: () => undefined, error: () => undefined } as never)
  const first = expect(series.answer([], filterOf('at=latest'))).rejects.toThrow('first')
  await vi.waitFor(() => expect(begun).toEqual(['latest']))
  const second = series.answer([], filterOf('at=3-months'))
  for (let turn = 0; turn < 20; turn++) await nextTurn()
  await board.store.listCases()
  await nextTurn()
  expect(begun).toEqual(['latest'])
  fail()
  await first
  expect(await second).toMatchObject({ ears: { n: 0 } })
  expect(begun).toEqual(['latest', '3-months'])
})
