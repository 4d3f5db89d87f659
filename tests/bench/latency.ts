import { type Contestant, residentMiB, startOurs, startReference, startRelay } from './contestants.ts'
import { Crowd, type Spread } from './crowd.ts'

/**
 * Edit to shown, 100 connections, 50 edits a second by 10 of them; then memory with 300 connections. All servers in one
 * run, in rounds one after the other, because the machine is shared: read the ratios, not the milliseconds.
 */
const rounds = 3
const results = new Map<string, Spread[]>()
const memoryMiB = new Map<string, number>()

for (let round = 0; round < rounds; round++)
  for (const start of [startRelay, startReference, startOurs]) {
    const contestant = await start()
    try {
      await measure(contestant, round === rounds - 1)
    } finally {
      await contestant.stop()
    }
  }
report()

async function measure(contestant: Contestant, withMemory: boolean): Promise<void> {
  const crowd = new Crowd(contestant)
  try {
    await crowd.grow(100)
    const spread = await crowd.edit(10, 50, 8)
    results.set(contestant.name, [...(results.get(contestant.name) ?? []), spread])
    if (!withMemory) return
    await crowd.grow(200)
    memoryMiB.set(contestant.name, residentMiB(contestant.pid))
  } finally {
    crowd.close()
  }
}

function report(): void {
  const best = (name: string, of: 'p50' | 'p99') => Math.min(...(results.get(name) ?? []).map((spread) => spread[of]))
  console.log('server      p50 ms   p99 ms   copies   MiB at 300 connections')
  for (const [name, spreads] of results)
    console.log(
      name.padEnd(10),
      best(name, 'p50').toFixed(2).padStart(7),
      best(name, 'p99').toFixed(2).padStart(8),
      String(spreads.at(-1)?.count).padStart(8),
      String(memoryMiB.get(name)).padStart(8),
    )
  console.log(
    `ours / reference: p50 ${(best('ours', 'p50') / best('reference', 'p50')).toFixed(2)}, p99 ${(best('ours', 'p99') / best('reference', 'p99')).toFixed(2)}`,
  )
}
