import { describe, expect, it } from 'vitest'
import { GuardFuzzer } from '../support/guard-fuzzer.ts'
import { randomFrom } from '../support/random.ts'

/** G1 to G9 under 20,000 frames that nobody thought of one by one; tests/bench/fuzz.ts sends a million. */
const frames = 10_000

describe.each(['record', 'floor'] as const)('[G1-G9] any frame to the %s', (kind) => {
  it('is refused, or changes what its sender may change and nothing else', { timeout: 300_000 }, () => {
    const seed = Number(process.env.FUZZ_SEED ?? Math.floor(Math.random() * 1_000_000))
    const fuzzer = new GuardFuzzer(kind, randomFrom(seed))
    try {
      for (let n = 0; n < frames; n++) fuzzer.step()
    } catch (error) {
      throw new Error(`FUZZ_SEED=${seed}, frame ${fuzzer.tally.frames}`, { cause: error })
    }
    const { accepted, refused } = fuzzer.tally
    // Both sides of the guard were met, and each kind of reason.
    expect(accepted).toBeGreaterThan(frames / 100)
    for (const code of ['not-permitted', 'invalid-record', 'unknown-place', 'malformed', 'foreign-client'])
      expect(refused.get(code), code).toBeGreaterThan(0)
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
  })
})
