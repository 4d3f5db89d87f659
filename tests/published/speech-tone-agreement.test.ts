// ASHA 1988: speech reception threshold against 0.5/1/2 kHz, or the best two where neighbours differ by more than 20 dB;
// within 10 dB (confirmed); good up to 6, fair below 13, poor from 13 dB (from memory, unconfirmed).
import { it } from 'vitest'
import { speechToneAgreement } from '../../lib/audiometry/speech-agreement.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const source = 'ASHA 1988, speech reception threshold against tones'

it('grades the agreement', () => {
  const flat = audiogram({ 500: 40, 1000: 40, 2000: 40 })
  const rows = [
    [46, 'good', true],
    [47, 'fair', true],
    [52, 'fair', false],
    [53, 'poor', false],
    [27, 'poor', false],
  ] as const
  for (const [speech, agreement, within] of rows) {
    const result = speechToneAgreement(flat, speech)
    checkValue({
      source,
      what: `tones 40, speech ${speech}`,
      expected: agreement,
      actual: result.agreement,
      tolerance: 0,
      why: 'a name',
    })
    checkValue({
      source,
      what: `within 10 dB at ${speech}`,
      expected: within,
      actual: result.withinTenDb,
      tolerance: 0,
      why: 'a decision',
    })
  }
})

it('takes the best two of a steep curve', () => {
  const { average } = speechToneAgreement(audiogram({ 500: 10, 1000: 20, 2000: 60 }), 15)
  checkValue({
    source,
    what: '10, 20, 60 dB HL',
    expected: 15,
    actual: average.value,
    tolerance: 1e-9,
    why: 'whole dB',
  })
})
