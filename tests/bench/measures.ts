// Time of all measures and findings of one case with 12 tests of both ears. Run: npx tsx tests/bench/measures.ts
import { findingText } from '../../app/board/measures/finding-text.ts'
import { findingSentences } from '../../app/messages/en/findings.ts'
import { compareTests, measuresOfTest } from '../../lib/audiometry/measures.ts'
import { reviewTest } from '../../lib/audiometry/review-test.ts'
import type { TestedEars } from '../../lib/audiometry/tested-ear.ts'
import { ears } from '../fixtures/tested-ears.ts'

const airFrequencies = [125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000]
const boneFrequencies = [250, 500, 750, 1000, 1500, 2000, 3000, 4000]
const targetMs = 4
const rounds = 400

const row = (frequencies: readonly number[], from: number, slope: number) =>
  Object.fromEntries(frequencies.map((frequency, index) => [frequency, from + 5 * Math.round((slope * index) / 5)]))

/** Twelve visits of a patient whose right ear gets better by and by; made anew, so that nothing is known from before. */
const twelveVisits = (): readonly TestedEars[] =>
  Array.from({ length: 12 }, (_, visit) =>
    ears(
      {
        air: row(airFrequencies, 65 - 5 * Math.floor(visit / 3), 2),
        bone: row(boneFrequencies, 10, 2),
        boneMasked: row(boneFrequencies, 15, 2),
        speech: 60,
      },
      { air: row(airFrequencies, 15, 4), bone: row(boneFrequencies, 10, 4), speech: 20 },
    ),
  )
const group = { edition: '2017', sex: 'female', age: 54 } as const

/** Returns how much was computed, so that the work cannot be optimised away. */
function measureCase(visits: readonly TestedEars[]): number {
  const measured = visits.map((test) => measuresOfTest({ ears: test, group }))
  const first = visits[0]
  if (first === undefined) throw new Error('the case has no visit')
  const changes = visits.flatMap((after) =>
    (['right', 'left'] as const).map((ear) => compareTests({ before: first, after }, ear)),
  )
  const findings = visits.map((test, visit) => {
    const earlier = visits
      .slice(0, visit)
      .map(({ right, left }) => ({ date: '2025-01-01', air: { right: right.air, left: left.air } }))
    return reviewTest({ ears: test, earlier })
  })
  const words = findings.flat().map((finding) => findingText(finding, findingSentences))
  return measured.length + changes.length + words.length
}

interface Timed {
  readonly ms: number
  /** Of this process alone, all threads: other programs on the machine do not count. In steps of a microsecond. */
  readonly processorMs: number
  readonly done: number
}

function timed(visits: readonly TestedEars[]): Timed {
  const before = process.cpuUsage()
  const start = performance.now()
  const done = measureCase(visits)
  const ms = performance.now() - start
  const { user, system } = process.cpuUsage(before)
  return { ms, processorMs: (user + system) / 1000, done }
}

const times = Array.from({ length: rounds }, () => timed(twelveVisits()))
const warm = times.slice(rounds / 4)
const sorted = (of: 'ms' | 'processorMs') => warm.map((round) => round[of]).toSorted((a, b) => a - b)
const quantile = (of: 'ms' | 'processorMs', share: number) => sorted(of)[Math.floor(share * warm.length)] ?? Number.NaN
const line = (of: 'ms' | 'processorMs') =>
  `fastest ${quantile(of, 0).toFixed(2)}, median ${quantile(of, 0.5).toFixed(2)}, 95 % below ${quantile(of, 0.95).toFixed(2)} ms`

console.log(`case of 12 tests, ${times[0]?.done} results, first run ${times[0]?.ms.toFixed(2)} ms`)
console.log(`by the clock: ${line('ms')}`)
console.log(`processor time: ${line('processorMs')}`)
console.log(`target ${targetMs} ms of processor time: ${quantile('processorMs', 0.5) <= targetMs ? 'met' : 'missed'}`)
