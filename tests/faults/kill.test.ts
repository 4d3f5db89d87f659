import { afterAll, beforeAll, expect, it } from 'vitest'
import { KillTrial } from '../support/kill-trial.ts'
import { randomFrom } from '../support/random.ts'
import { startServer, type TestServer } from '../support/start-server.ts'

/** KILL_ROUNDS for more rounds, KILL_SEED to repeat a run. 500 rounds: tests/bench/soak.ts. */
const rounds = Number(process.env.KILL_ROUNDS ?? 50)
const seed = Number(process.env.KILL_SEED ?? Date.now() % 1_000_000)

let server: TestServer
let trial: KillTrial
beforeAll(async () => {
  server = await startServer()
  trial = await KillTrial.open(server, randomFrom(seed))
}, 600_000)
afterAll(async () => {
  trial.close()
  await server.stop()
})

it(`[R1] keeps what was seen and stored over ${rounds} kills (seed ${seed})`, {
  timeout: 60_000 + rounds * 20_000,
}, async () => {
  let seen = 0
  for (let round = 0; round < rounds; round++) {
    const { faults, seen: ofOthers } = await trial.round()
    expect([round, faults]).toEqual([round, []])
    seen += ofOthers
  }
  expect(seen).toBeGreaterThan(rounds)
})
