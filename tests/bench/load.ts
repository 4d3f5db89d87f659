import { type Contestant, residentMiB, startHocuspocus, startOurs, startReference, startRelay } from './contestants.ts'
import { Crowd, quiet, type Spread } from './crowd.ts'
import { writeResults } from './results.ts'

/**
 * A meeting at its worst, beside a raw relay (the machine's limit) and two servers without guard and store, each in turn and on
 * equal work in one run: read the ratios, not the milliseconds. Ours runs with guard and durable SQLite. What is measured:
 * (a) a full house, (b) a hot floor, (c) everybody coming at once, (d) everybody pointing. Run: npx tsx tests/bench/load.ts
 */
interface Row {
  readonly scenario: string
  readonly server: string
  readonly figures: readonly string[]
}

interface Limit {
  readonly what: string
  readonly value: number
  readonly most: number
}

const rows: Row[] = []
const limits: Limit[] = []
const megabyte = 1_000_000
/** Nobody takes what is shown this late for what happens now. */
const behindMs = 500
const hotEdits = 4000

type Start = () => Promise<Contestant>

const withCrowd = async <T>(start: Start, work: (crowd: Crowd, of: Contestant) => Promise<T>) => {
  const contestant = await start()
  const crowd = new Crowd(contestant)
  try {
    return await work(crowd, contestant)
  } finally {
    crowd.close()
    await contestant.stop()
  }
}

const ms = (value: number) => `${value.toFixed(value < 100 ? 1 : 0)} ms`
const lost = ({ count, expected }: Spread) =>
  count >= expected ? 'nothing lost' : `${expected - count} of ${expected} missing`
const figuresOf = (spread: Spread) => [`p50 ${ms(spread.p50)}`, `p99 ${ms(spread.p99)}`, lost(spread)]
const note = (scenario: string, server: string, figures: readonly string[]) => {
  rows.push({ scenario, server, figures })
  console.log(`${scenario} | ${server} | ${figures.join(', ')}`)
}
const hold = (what: string, value: number, most: number) => {
  limits.push({ what, value, most })
  console.log(`  ${what}: ${value.toFixed(2)} (limit ${most}) ${value <= most ? 'met' : 'MISSED'}`)
}

await fullHouse()
await hotFloor()
await joinStorm()
await pointers()
await writeResults('load', 'A meeting at its worst', table(), limits)

async function fullHouse(): Promise<void> {
  const scenario = '(a) 1,000 people, 20 edits a second'
  const measured = new Map<string, { readonly spread: Spread; readonly mebibytes: number }>()
  for (const start of [startRelay, startReference, startOurs])
    await withCrowd(start, async (crowd, { name, pid }) => {
      await crowd.grow(1000)
      const spread = await crowd.edit(10, 20, 10)
      const mebibytes = residentMiB(pid)
      measured.set(name, { spread, mebibytes })
      note(scenario, name, [...figuresOf(spread), `${mebibytes} MiB`])
    })
  const of = (name: string) => measured.get(name) ?? { spread: { p99: Number.NaN }, mebibytes: Number.NaN }
  hold('(a) p99 against the relay', of('ours').spread.p99 / of('relay').spread.p99, 2)
  hold('(a) memory against the reference', of('ours').mebibytes / of('reference').mebibytes, 2)
}

/**
 * The load of the plan, then one that doubles until the reference is behind: on a fast machine only that says what
 * merging is worth. So many replies in each run, because a floor takes no more than 5,000.
 */
async function hotFloor(): Promise<void> {
  let measured = await hotRow(20, 500, [startRelay, startReference, startHocuspocus, startOurs])
  hold('(b) p99 against the reference', measured('ours').p99 / measured('reference').p99, 0.25)
  for (let rate = 1000; measured('reference').p99 < behindMs && rate <= 4000; rate *= 2)
    measured = await hotRow(40, rate, [startReference, startOurs])
  hold('(b) the same where the reference falls behind', measured('ours').p99 / measured('reference').p99, 0.25)
  const { count, expected } = measured('ours')
  hold('(b) share that was lost', 1 - count / expected, 0)
}

function hotRow(writers: number, perSecond: number, contestants: readonly Start[]) {
  const scenario = `(b) 100 people, ${writers} of them writing ${perSecond / writers} times a second`
  return row(scenario, contestants, async (crowd) => {
    await crowd.grow(100)
    return crowd.edit(writers, perSecond, hotEdits / perSecond)
  })
}

async function joinStorm(): Promise<void> {
  const scenario = '(c) 300 people open a case of 1 MB at once'
  const measured = new Map<string, number>()
  for (const start of [startReference, startHocuspocus, startOurs])
    await withCrowd(start, async (crowd, { name }) => {
      await crowd.grow(1)
      await crowd.fill(megabyte)
      const begun = performance.now()
      const joins = await Promise.all(Array.from({ length: 300 }, () => crowd.join(0.9 * megabyte)))
      const whole = performance.now() - begun
      measured.set(name, whole)
      note(scenario, name, [`all have it after ${ms(whole)}`, `half after ${ms(median(joins))}`])
    })
  hold(
    '(c) until all have it, against the reference',
    (measured.get('ours') ?? Number.NaN) / (measured.get('reference') ?? 1),
    1 / 3,
  )
  await withCrowd(startOurs, async (crowd, { name }) => {
    await crowd.grow(50)
    await crowd.fill(megabyte)
    const coming: Promise<number>[] = []
    const editing = crowd.edit(10, 20, 32)
    for (let n = 0; n < 1000; n++) {
      coming.push(crowd.join(0.9 * megabyte))
      await quiet(30)
    }
    const joins = await Promise.all(coming)
    const spread = await editing
    note('(c) 1,000 come within 30 s while 10 people write', name, [
      `a join: half within ${ms(median(joins))}, slowest ${ms(Math.max(...joins))}`,
      `edits: p50 ${ms(spread.p50)}, p99 ${ms(spread.p99)}`,
    ])
  })
}

/**
 * The load of the plan, then one that doubles until the reference is behind. Connections send back what they hear of
 * others, as an unmodified y-websocket client does; those of our own pages do not.
 */
async function pointers(): Promise<void> {
  let measured = await pointerRow(2, [startReference, startHocuspocus, startOurs])
  hold('(d) p99 against the reference', measured('ours').p99 / measured('reference').p99, 0.2)
  for (let rate = 4; measured('reference').p99 < behindMs && rate <= 16; rate *= 2)
    measured = await pointerRow(rate, [startReference, startOurs])
  hold('(d) the same where the reference falls behind', measured('ours').p99 / measured('reference').p99, 0.2)
  await withCrowd(startOurs, async (crowd, { name }) => {
    await crowd.grow(100)
    const spread = await crowd.point(20, 6, { echoing: false })
    note('(d) 100 people point 20 times a second, from our own pages', name, figuresOf(spread))
    // What somebody pointed at before the last tick is replaced, not lost: late copies would show in the spread.
    hold('(d) p99 at 20 a second, in seconds', spread.p99 / 1000, 0.2)
  })
}

function pointerRow(timesPerSecond: number, contestants: readonly Start[]) {
  return row(`(d) 100 people point ${timesPerSecond} times a second`, contestants, async (crowd) => {
    await crowd.grow(100)
    return crowd.point(timesPerSecond, 8, { echoing: true })
  })
}

/** Measures each in turn. @returns what was measured of whom */
async function row(scenario: string, contestants: readonly Start[], measure: (crowd: Crowd) => Promise<Spread>) {
  const measured = new Map<string, Spread>()
  for (const start of contestants)
    await withCrowd(start, async (crowd, { name }) => {
      const spread = await measure(crowd)
      measured.set(name, spread)
      note(scenario, name, figuresOf(spread))
    })
  return (name: string) => measured.get(name) ?? { p50: Number.NaN, p99: Number.NaN, count: 0, expected: 1 }
}

function table(): string {
  const lines = rows.map(({ scenario, server, figures }) => `| ${scenario} | ${server} | ${figures.join('; ')} |`)
  return ['| what | server | measured |', '| --- | --- | --- |', ...lines].join('\n')
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN
}
