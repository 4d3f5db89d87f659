// Time of the changes of drive by a scenario: eleven frequencies, sound and every site with both actuators, three parameter sets and
// the spread between ears. Run: npx tsx tests/bench/middle-ear.ts
import { Actuator, ActuatorSite, type Drive } from '../../lib/devices/drives.ts'
import type { EarChange } from '../../lib/devices/ear-changes.ts'
import { createMiddleEar, type MiddleEar } from '../../lib/middle-ear/drive-change.ts'

const frequencies = [125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000]
const eight = [250, 500, 1000, 2000, 3000, 4000, 6000, 8000]
const rounds = 400
const targetMs = 0.3

const everyDrive: readonly Drive[] = [
  { by: 'sound' },
  ...ActuatorSite.options.flatMap((site) =>
    Actuator.options.map((actuator): Drive => ({ by: 'actuator', site, actuator })),
  ),
]
const oneDrive = everyDrive.slice(-1)

/** A scenario that nobody has asked for yet. */
const scenario = (round: number): readonly EarChange[] => [
  { kind: 'ligament-stiffened', ligament: 'malleus', times: 2 + round / 8 },
  { kind: 'joint-slack', joint: 'malleus-incus', factor: 0.5 },
  { kind: 'contact-loss', lossDb: 5, sdDb: 4 },
]

/** Returns how much was computed, so that the work cannot be optimised away. */
function computed(
  { driveChange }: MiddleEar,
  changes: readonly EarChange[],
  drives: readonly Drive[],
  at: readonly number[],
) {
  const found = drives.flatMap((drive) => at.map((frequencyHz) => driveChange(changes, drive, frequencyHz)))
  return found.filter(({ kind }) => kind === 'change').length
}

interface Timed {
  readonly ms: number
  readonly done: number
}

function timed(work: () => number): Timed {
  const start = performance.now()
  const done = work()
  return { ms: performance.now() - start, done }
}

function report(name: string, work: (round: number) => number): number {
  const times = Array.from({ length: rounds }, (_, round) => timed(() => work(round)))
  const warm = times.slice(rounds / 4).map(({ ms }) => ms)
  const sorted = warm.toSorted((a, b) => a - b)
  const quantile = (share: number) => sorted[Math.floor(share * sorted.length)] ?? Number.NaN
  const median = quantile(0.5)
  const line = `fastest ${quantile(0).toFixed(3)}, median ${median.toFixed(3)}, 95 % below ${quantile(0.95).toFixed(3)} ms`
  console.log(`${name}: ${times[0]?.done} changes, first ${times[0]?.ms.toFixed(2)} ms; ${line}`)
  return median
}

const middleEar = createMiddleEar()
report('new scenario, all drives, 11 frequencies', (round) =>
  computed(middleEar, scenario(round), everyDrive, frequencies),
)
const known = scenario(0)
report('known scenario, all drives, 11 frequencies', () => computed(middleEar, known, everyDrive, frequencies))
report('new scenario and network, one drive, 8 frequencies', (round) =>
  computed(createMiddleEar(), scenario(round), oneDrive, eight),
)
const one = report('new scenario, one drive, 8 frequencies', (round) =>
  computed(middleEar, scenario(round), oneDrive, eight),
)
console.log(`target ${targetMs} ms for one drive at 8 frequencies: ${one <= targetMs ? 'met' : 'missed'}`)
