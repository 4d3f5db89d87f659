import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import type { SeriesFilter } from '../../lib/interchange/series-filter.ts'
import { inventedEar } from '../../server/demo/invented-ear.ts'
import { drawsFrom, inventedOutcome } from '../../server/demo/invented-series.ts'
import { createLog } from '../../server/log.ts'
import { Series } from '../../server/series/series.ts'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'
import { makeTemporaryFolder } from '../support/temporary-folder.ts'

/**
 * What the page of a series of 10,000 cases costs: reading all columns in the background after a start, and afterwards the
 * page with another filter each time, after an edit, and unchanged. Run: npx tsx tests/bench/series.ts
 */

const cases = 10_000
const folder = await makeTemporaryFolder()
const store = await openSqliteStore(join(folder, 'store.db'))
await store.createProgramme({ id: 'bench', label: 'Bench', createdAt: new Date().toISOString() })
const draw = drawsFrom(7)
for (let n = 0; n < cases; n += 250)
  await Promise.all(
    Array.from({ length: 250 }, async (_, index) => {
      const id = `c${n + index}`
      await store.createCase({
        id,
        programme: 'bench',
        label: id,
        rank: `a${n + index}`,
        createdAt: '2026-05-04T10:00:00.000Z',
      })
      await store.saveOutcome(id, inventedOutcome(id, inventedEar(draw), '2026-05-04'))
    }),
  )

const series = new Series(
  store,
  createLog(
    () => undefined,
    () => new Date(),
  ),
)
const delay = monitorEventLoopDelay({ resolution: 1 })
const sites = ['incus-long-process', 'incus-body', 'stapes-head', 'round-window'] as const

async function page(filter: SeriesFilter): Promise<{ readonly ms: number; readonly bytes: number }> {
  const begun = performance.now()
  const ids = (await store.listCases()).map(({ id }) => id)
  const answer = JSON.stringify(await series.answer(ids, filter))
  return { ms: performance.now() - begun, bytes: answer.length }
}

const plain = { at: 'latest', measure: 'effective-gain' } as const
delay.enable()
const begun = performance.now()
await series.warm()
const warmMs = performance.now() - begun
const heldByWarming = delay.max / 1e6
const first = await page(plain)

/** No two the same, so that each is added up anew. */
const others: number[] = []
delay.reset()
for (let turn = 0; turn < 12; turn++) {
  const from = `2020-01-${String(turn + 1).padStart(2, '0')}`
  others.push((await page({ ...plain, site: sites[turn % sites.length], from })).ms)
}
const whole: number[] = []
for (let turn = 0; turn < 6; turn++) {
  await store.saveOutcome('c0', inventedOutcome('c0', inventedEar(draw), '2026-05-04'))
  whole.push((await page(plain)).ms)
}
const again = [await page(plain), await page(plain), await page(plain)].map(({ ms }) => ms)
delay.disable()

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0
console.log(`${cases} cases, ${Math.round(first.bytes / 1024)} KiB answered`)
console.log(
  `warming after a start: ${Math.round(warmMs)} ms; event loop held for at most ${Math.round(heldByWarming)} ms`,
)
console.log(`first page afterwards: ${Math.round(first.ms)} ms`)
console.log(`another filter each time: median ${Math.round(median(others))} ms`)
console.log(
  `all ears, one case changed: median ${Math.round(median(whole))} ms; unchanged: ${Math.round(median(again))} ms`,
)
console.log(`event loop held for at most ${Math.round(delay.max / 1e6)} ms`)
await store.close()
await rm(folder, { recursive: true, force: true })
