import { KillTrial } from '../support/kill-trial.ts'
import { randomFrom } from '../support/random.ts'
import { startServer } from '../support/start-server.ts'
import { writeResults } from './results.ts'

/**
 * Kills the server 500 times while five people write, at random moments, and looks each time whether anything was lost: what
 * `npm test` does 50 times. A new case every 50 rounds keeps the rounds equal. About a quarter of an hour.
 * Run: npx tsx tests/bench/soak.ts, with SOAK_ROUNDS for another number and SOAK_SEED to repeat a run.
 */
const rounds = Number(process.env.SOAK_ROUNDS ?? 500)
const seed = Number(process.env.SOAK_SEED ?? Math.floor(Math.random() * 1_000_000))
const roundsPerCase = 50

const random = randomFrom(seed)
const server = await startServer()
const faults: string[] = []
const restartsMs: number[] = []
let seen = 0
let trial: KillTrial | undefined
for (let round = 0; round < rounds; round++) {
  if (round % roundsPerCase === 0) {
    trial?.close()
    trial = await KillTrial.open(server, random)
  }
  const result = await (trial as KillTrial).round()
  faults.push(...result.faults.map((fault) => `round ${round}: ${fault}`))
  restartsMs.push(result.restartMs)
  seen += result.seen
  if (round % 10 === 9) console.log(`${round + 1} rounds, ${faults.length} faults`)
}
trial?.close()
await server.stop()
for (const fault of faults) console.error(fault)

restartsMs.sort((a, b) => a - b)
const at = (share: number) => ((restartsMs[Math.floor(share * (rounds - 1))] ?? 0) / 1000).toFixed(2)
const table = [
  '| rounds | things of others seen at the kills | lost, refused or not equal | server there again after |',
  '| --- | --- | --- | --- |',
  `| ${rounds} | ${seen} | ${faults.length} | half within ${at(0.5)} s, slowest ${at(1)} s |`,
].join('\n')
await writeResults('soak', `Kills while five people write (seed ${seed})`, table, [
  { what: 'edits that were seen or called stored and lost, or copies that differ', value: faults.length, most: 0 },
])
process.exitCode = faults.length === 0 ? 0 : 1
