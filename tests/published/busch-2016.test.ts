// Busch et al. 2016, Audiol Neurotol 21:347-355, abstract: mean bone-conduction threshold (0.5, 1, 2, 4 kHz) at which
// half of the monosyllables at 65 dB SPL are right, by coupling: incus 48.2 (n 59), round window without coupler 47.8
// (n 22), with coupler 67.9 (n 23), oval window with coupler 49.0 dB nHL (n 33).
import { expect, it } from 'vitest'
import type { CouplingSite } from '../../lib/devices/classes.ts'
import { forecast } from '../../lib/forecast/forecast.ts'
import { logisticScore } from '../../lib/forecast/word-score.ts'
import { ear, flat, forecastIn, inputs, planned } from '../fixtures/forecast-ear.ts'
import { checkValue } from './record-check.ts'

const source = 'Busch et al. 2016, abstract'

const rows: readonly { couplingSite: CouplingSite; variant: string; half: number; n: number }[] = [
  { couplingSite: 'incus-long-process', variant: 'only', half: 48.2, n: 59 },
  { couplingSite: 'round-window', variant: 'without-coupler', half: 47.8, n: 22 },
  { couplingSite: 'round-window', variant: 'with-coupler', half: 67.9, n: 23 },
  { couplingSite: 'oval-window', variant: 'with-coupler', half: 49.0, n: 33 },
]

it.each(rows)('half of the words at $half dB HL: $couplingSite $variant', ({ couplingSite, variant, half, n }) => {
  const tests = ear({ bone: flat(half), air: flat(half + 30) })
  const { wordScores } = forecastIn(forecast(inputs({ plan: planned({ couplingSite }), tests })))
  const score = wordScores.find((candidate) => candidate.variant === variant)?.score
  if (score?.kind !== 'estimate') throw new Error('expected an estimate')
  const what = `${couplingSite}, ${variant}`
  checkValue({
    source,
    what: `${what}: score, %`,
    expected: 50,
    actual: score.value,
    tolerance: 1e-9,
    why: 'by definition of the half-right level',
  })
  const anchor = score.basis.inputs.find((input) => input.name === 'half-right-at')
  checkValue({ source, what: `${what}: ears`, expected: n, actual: anchor?.n, tolerance: 0, why: 'a count' })
  expect(score.basis.sources.find((given) => given.citation.includes('Busch et al. 2016'))?.status).toBe('confirmed')
})

it.each([3, 4, 5])('a logistic of %d %% per dB has that slope at half', (slope) => {
  const step = 1e-4
  const rise = (logisticScore(50 - step, 50, slope) - logisticScore(50 + step, 50, slope)) / (2 * step)
  checkValue({
    source: 'Logistic function: slope at half is k/4',
    what: `${slope} % per dB`,
    expected: slope,
    actual: rise,
    tolerance: 1e-6,
    why: 'central difference',
  })
})
