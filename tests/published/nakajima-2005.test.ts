// Nakajima et al. 2005, Laryngoscope 115:147-154, abstract, 18 temporal bones, loss of stapes velocity: anterior malleus
// ligament stiffened 0 to 8 dB; fibrous tissue at the malleus head below 10 dB; bony bar 10 to 30 dB; extensive new bone
// above 35 dB, and the umbo falls by a similar amount. Stapes fixed: the stapes falls, the umbo changes little.
import { expect, it } from 'vitest'
import { decibels, magnitude } from '../../lib/middle-ear/complex.ts'
import { chainChangeDb, sound, stiffened, velocityOf } from '../fixtures/middle-ear.ts'
import { checkValue } from './record-check.ts'

const source = 'Nakajima et al. 2005, abstract'
const low = [500, 750, 1000]
const lossOf = (times: number) =>
  low.reduce((sum, f) => sum - chainChangeDb([stiffened('malleus', times)], sound, f), 0) / low.length
const umboDb = (ligament: 'malleus' | 'annular', times: number, f: number) =>
  decibels(
    magnitude(velocityOf('malleus', sound, f, [stiffened(ligament, times)])) /
      magnitude(velocityOf('malleus', sound, f)),
  )

it.each([
  { times: 3, loss: 3 },
  { times: 10, loss: 10 },
  { times: 30, loss: 18 },
  { times: 100, loss: 28 },
  { times: 1000, loss: 48 },
])('malleus ligaments x$times lose about $loss dB at 0.5 to 1 kHz', ({ times, loss }) => {
  const what = `malleus x${times}: mean loss 0.5 to 1 kHz, dB`
  checkValue({ source, what, expected: loss, actual: lossOf(times), tolerance: 0.51, why: 'whole dB' })
})

it.each([
  { name: 'anterior ligament stiffened', low: 0, high: 8, from: 1, to: 7 },
  { name: 'fibrous tissue', low: 0, high: 10.5, from: 1, to: 10 },
  { name: 'bony bar', low: 9.5, high: 30, from: 10, to: 120 },
  { name: 'extensive new bone', low: 34.5, high: 60, from: 220, to: 1000 },
])('$name is x$from to x$to', ({ name, low: least, high: most, from, to }) => {
  for (const times of [from, to]) {
    const inside = lossOf(times) >= least && lossOf(times) <= most
    checkValue({
      source,
      what: `${name}, x${times}, within its class`,
      expected: true,
      actual: inside,
      tolerance: 0,
      why: 'a range',
    })
  }
})

it('the umbo falls with a fixed malleus as the stapes does', () => {
  for (const f of low)
    expect(umboDb('malleus', 100, f)).toBeCloseTo(chainChangeDb([stiffened('malleus', 100)], sound, f), 1)
})

it.each([10, 100, 1000])('the umbo moves by 4 to 6 dB at most when the stapes is x%d fixed', (times) => {
  for (const f of low) {
    const what = `stapes x${times}, umbo at ${f} Hz, dB`
    const actual = umboDb('annular', times, f)
    checkValue({ source, what, expected: -5, actual, tolerance: 1.4, why: 'changes little; model -4 to -6 dB' })
    expect(chainChangeDb([stiffened('annular', times)], sound, f)).toBeLessThan(-14)
  }
})
