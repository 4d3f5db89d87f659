// Set 1: J Speech Lang Hear Res 60:1076-1087, 2017, Table 1 (0.5/1/2/4 kHz; loss > 15 dB HL, gap > 10 dB).
// Set 2: Mazzoli et al. 2003 (0.5/1/2 kHz; loss > 20 dB HL, gap 15 dB).
import { it } from 'vitest'
import { typeOfLoss } from '../../lib/audiometry/type-of-loss.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const flat = (level: number) => audiogram({ 500: level, 1000: level, 2000: level, 4000: level })
const name = { tolerance: 0, why: 'a name' } as const

it('types by set 1', () => {
  const source = 'JSLHR 60:1076-1087, 2017, Table 1'
  const example = typeOfLoss(
    {
      air: audiogram({ 500: 55, 1000: 55, 2000: 50, 4000: 50 }),
      bone: audiogram({ 500: 10, 1000: 15, 2000: 15, 4000: 15 }),
    },
    'set-1',
  )
  const gap = example.gap?.kind === 'exact' ? example.gap.value : undefined
  checkValue({
    source,
    what: 'gap of 52.5 and 13.75',
    expected: 38.75,
    actual: gap,
    tolerance: 1e-9,
    why: 'exact quarter',
  })
  checkValue({ ...name, source, what: 'its type', expected: 'conductive', actual: example.type })
  const rows = [
    [15, 0, 'none'],
    [30, 15, 'conductive'],
    [30, 20, 'sensorineural'],
    [31, 20, 'mixed'],
    [25, 15, 'sensorineural'],
  ] as const
  for (const [air, bone, expected] of rows) {
    const { type } = typeOfLoss({ air: flat(air), bone: flat(bone) }, 'set-1')
    checkValue({ ...name, source, what: `air ${air}, bone ${bone}`, expected, actual: type })
  }
})

it('types by set 2, with exactly 15 dB on the conductive side', () => {
  const source = 'Mazzoli et al. 2003'
  const rows = [
    [20, 0, 'none'],
    [35, 20, 'conductive'],
    [40, 25, 'mixed'],
    [39, 25, 'sensorineural'],
  ] as const
  for (const [air, bone, expected] of rows) {
    const { type } = typeOfLoss({ air: flat(air), bone: flat(bone) }, 'set-2')
    checkValue({ ...name, source, what: `air ${air}, bone ${bone}`, expected, actual: type })
  }
})
