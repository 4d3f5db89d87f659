import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { GuardFuzzer } from '../support/guard-fuzzer.ts'
import { randomFrom } from '../support/random.ts'
import { writeResults } from './results.ts'

/**
 * A million frames that break the rules of the board in ways nobody thought of one by one (half a million to each document):
 * none may throw, none may be accepted outside the table of rights, and memory may not grow with them. It takes about half an
 * hour. Run: npx tsx tests/bench/fuzz.ts, with FUZZ_FRAMES for fewer and FUZZ_SEED to repeat a run.
 */
const frames = Number(process.env.FUZZ_FRAMES ?? 1_000_000) / 2
const seed = Number(process.env.FUZZ_SEED ?? Math.floor(Math.random() * 1_000_000))

setFlagsFromString('--expose-gc')
const collectGarbage = runInNewContext('gc') as () => void
const heapMiB = () => {
  collectGarbage()
  return process.memoryUsage().heapUsed / 2 ** 20
}

const lines = [
  '| document | frames | accepted | refused, by reason | heap after a tenth and at the end |',
  '| --- | --- | --- | --- | --- |',
]
let growth = 0
for (const kind of ['record', 'floor'] as const) {
  const fuzzer = new GuardFuzzer(kind, randomFrom(seed))
  let early = Number.NaN
  for (let n = 0; n < frames; n++) {
    fuzzer.step()
    if (n === Math.floor(frames / 10)) early = heapMiB()
    if (n % 50_000 === 0) console.log(`${kind}: ${n} frames, ${heapMiB().toFixed(0)} MiB`)
  }
  const late = heapMiB()
  growth = Math.max(growth, late / early)
  const { accepted, refused } = fuzzer.tally
  const reasons = [...refused].sort(([, a], [, b]) => b - a).map(([code, count]) => `${code} ${count}`)
  lines.push(
    `| ${kind} | ${fuzzer.tally.frames} | ${accepted} | ${reasons.join(', ')} | ${early.toFixed(1)} and ${late.toFixed(1)} MiB |`,
  )
  console.log(lines.at(-1))
}
const limits = [
  { what: 'frames accepted outside the table of rights, or that made the guard throw', value: 0, most: 0 },
  { what: 'heap at the end against a tenth of the way', value: growth, most: 1.2 },
]
await writeResults('fuzz', `Frames that break the rules (seed ${seed})`, lines.join('\n'), limits)
