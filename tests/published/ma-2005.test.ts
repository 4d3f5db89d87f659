// Ma et al. 2005 (doi 10.3760/j.issn:1673-0860.2005.07.007), abstract: in 10 temporal bones the mean transmission loss within
// the incus-stapes joint is 3 dB over the frequencies. The base set was not fitted to it.
import { it } from 'vitest'
import { decibels } from '../../lib/middle-ear/complex.ts'
import { sound, speedOf } from '../fixtures/middle-ear.ts'
import { checkValue } from './record-check.ts'

const frequencies = [250, 500, 1000, 2000, 3000, 4000]

it('the incus-stapes joint of the base set loses about as much', () => {
  const losses = frequencies.map((f) => decibels(speedOf('incus', sound, f) / speedOf('stapes', sound, f)))
  checkValue({
    source: 'Ma et al. 2005, abstract',
    what: 'mean loss at the incus-stapes joint, 0.25 to 4 kHz, dB',
    expected: 3,
    actual: losses.reduce((sum, loss) => sum + loss, 0) / losses.length,
    tolerance: 0.6,
    why: 'given in whole dB, as a mean over unnamed frequencies',
  })
})
