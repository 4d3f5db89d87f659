// Gurgel RK, Jackler RK, Dobie RA, Popelka GR, Otolaryngol Head Neck Surg 147:803-807, 2012: average of 0.5, 1, 2 and
// 3 kHz; a missing 3 kHz is the mean of 2 and 4 kHz.
import { it } from 'vitest'
import { pureToneAverage } from '../../lib/audiometry/averages.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const source = 'Gurgel et al. 2012, four-tone average'

it('takes a missing 3 kHz from its neighbours', () => {
  const result = pureToneAverage(audiogram({ 500: 40, 1000: 45, 2000: 50, 4000: 70 }), 'pta4-aao')
  const used = result.inputs.find((input) => input.frequency === 3000)?.usedAs
  const why = 'exact in quarters of a dB'
  checkValue({ source, what: '3 kHz from 50 and 70', expected: 60, actual: used, tolerance: 1e-9, why })
  checkValue({ source, what: '(40+45+50+60)/4', expected: 48.75, actual: result.value, tolerance: 1e-9, why })
})
