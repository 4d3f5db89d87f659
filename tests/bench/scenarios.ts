// Time of what a slider moves: every option of a case under a scenario nobody has asked for yet, with every number, interval and
// speech index, in one thread. Run: npx tsx tests/bench/scenarios.ts
import type { Scenario } from '../../lib/devices/scenario.ts'
import { earOptions } from '../../lib/forecast/ear-options.ts'
import { createMiddleEar } from '../../lib/middle-ear/drive-change.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { ear, inputs, planned } from '../fixtures/forecast-ear.ts'

const rounds = 400
const targetMs = 16
const points = { 500: 25, 1000: 25, 2000: 40, 3000: 40, 4000: 45, 6000: 50, 8000: 55 }
const tests = ear({ bone: audiogram(points), air: audiogram({ ...points, 250: 60, 1000: 65, 2000: 70 }) })
const given = { ...inputs({ tests }), plan: planned() }
const middleEar = createMiddleEar()

const scenarios: Readonly<Record<string, (round: number) => Scenario>> = {
  'fixation comes back': (round) => ({ fixation: { at: 'malleus-and-incus', times: 2 + round } }),
  'partial contact': (round) => ({ contact: { lossDb: (20 * round) / rounds } }),
  'joints slack': (round) => ({ malleusIncusSlack: 1 / (2 + round / 5), incusStapes: { kind: 'slack', factor: 0.5 } }),
  'ten years of ageing': (round) => ({ innerEarYears: 1 + (29 * round) / rounds }),
  'all together': (round) => ({
    fixation: { at: 'stapes', times: 2 + round },
    contact: { lossDb: 5 },
    malleusIncusSlack: 0.5,
    innerEarYears: 10,
  }),
}

function report(name: string, work: (round: number) => number): number {
  const times: number[] = []
  let made = 0
  for (let round = 0; round < rounds; round++) {
    const start = performance.now()
    made += work(round)
    times.push(performance.now() - start)
  }
  const warm = times.slice(rounds / 4).toSorted((a, b) => a - b)
  const quantile = (share: number) => warm[Math.floor(share * warm.length)] ?? Number.NaN
  const line = `median ${quantile(0.5).toFixed(2)}, 90 % below ${quantile(0.9).toFixed(2)}, longest ${quantile(0.999).toFixed(2)} ms`
  console.log(`${name}: ${made / rounds} forecasts, first ${times[0]?.toFixed(1)} ms; ${line}`)
  return quantile(0.9)
}

const patient = { ageYears: 47, sex: 'male' } as const
const slowest = Object.entries(scenarios).map(([name, scenarioOf]) =>
  report(name, (round) => {
    const context = { scenario: scenarioOf(round), actuator: 'floating-mass', middleEar, patient } as const
    return earOptions(given, context).filter(({ outcome }) => outcome.ok).length
  }),
)
const worst = Math.max(...slowest)
console.log(
  `target ${targetMs} ms for nine in ten: ${worst <= targetMs ? 'met' : `missed by ${(worst - targetMs).toFixed(1)} ms`}`,
)
