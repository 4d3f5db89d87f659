// Berger, Am J Audiol 2:17-18, 1993, on Lybarger 1963: "someone with a 60 dB HTL typically chose 30 dB of gain".
// Johnson, J Am Acad Audiol 24:452-460, 2013: 25 % ABG + AC and 75 % ABG + BC are algebraically equivalent, with half of
// AC or BC: AC / 2 + ABG / 4 = BC / 2 + 3 ABG / 4.
import { expect, it } from 'vitest'
import { halfGain } from '../../lib/forecast/air-conduction-aid.ts'
import { airConductionAid, untreatedEar } from '../../lib/forecast/comparators.ts'
import { forecast } from '../../lib/forecast/forecast.ts'
import type { Prediction } from '../../lib/forecast/prediction.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { ear, flat, forecastIn, inputs, planned } from '../fixtures/forecast-ear.ts'
import { checkValue } from './record-check.ts'

it('takes half of a sensorineural threshold', () => {
  checkValue({
    source: 'Berger, Am J Audiol 2:17-18, 1993, quoting Lybarger 1963',
    what: 'gain for a threshold of 60 dB HL, dB',
    expected: 30,
    actual: halfGain(60, 60),
    tolerance: 0,
    why: 'whole dB',
  })
})

// Butler et al. 2013, J Laryngol Otol 127 suppl. 2 (14 comparative studies), abstract: functional gain of active middle-ear implant
// and external aid in sensorineural loss generally without a clinically significant difference, defined as 10 dB or more.
it.each([40, 55, 70])(
  'expects an active middle-ear implant to gain as much where there is no gap: %d dB HL',
  (level) => {
    const tests = ear({ air: flat(level), bone: flat(level) })
    const outcome = forecast(inputs({ plan: planned({ couplingSite: 'incus-long-process' }), tests }))
    const implant = numberIn(forecastIn(outcome).fourTone.functionalGain) ?? 0
    const aid = level - (numberIn(forecastOf(airConductionAid(tests, undefined)).meanThreshold) ?? 0)
    checkValue({
      source: 'Butler et al. 2013, J Laryngol Otol 127 suppl. 2, abstract',
      what: `functional gain of implant less that of aid without a gap, ${level} dB HL, dB`,
      expected: 0,
      actual: implant - aid,
      tolerance: 10,
      why: 'the least difference that the review calls clinically significant',
    })
  },
)

it.each([
  { air: 60, bone: 20 },
  { air: 45, bone: 40 },
  { air: 70, bone: 35 },
])('is the same from air and from bone conduction: $air over $bone dB HL', ({ air, bone }) => {
  checkValue({
    source: 'Johnson, J Am Acad Audiol 24:452-460, 2013, abstract',
    what: `gain for ${air} dB HL by air over ${bone} by bone, dB`,
    expected: bone / 2 + (3 * (air - bone)) / 4,
    actual: halfGain(air, bone),
    tolerance: 1e-9,
    why: 'quarters of a dB',
  })
})

it('ends at the output of the aid', () => {
  expect(halfGain(100, 40)).toBe(50)
})

function forecastOf(comparator: ReturnType<typeof airConductionAid>) {
  if (!comparator.ok) throw new Error(`expected a forecast, got ${comparator.reason}`)
  return comparator.forecast
}
const numberIn = (prediction: Prediction | undefined) =>
  prediction === undefined || prediction.kind === 'absent' ? undefined : prediction.value

// 75 over 40 dB HL: gain 37.5 + 8.75 = 46.25, aided 28.75
it('expects aided thresholds, their mean and the index of speech', () => {
  const aid = forecastOf(airConductionAid(ear(), undefined))
  expect(numberIn(aid.byFrequency.find(({ frequency }) => frequency === 1000)?.threshold)).toBe(28.75)
  expect(numberIn(aid.meanThreshold)).toBe(28.75)
  const untreated = forecastOf(untreatedEar(ear()))
  expect(numberIn(untreated.meanThreshold)).toBe(75)
  const indexOf = (of: typeof aid) => numberIn(of.speech.find(({ condition }) => condition === 'quiet-65')?.index) ?? 0
  expect(indexOf(aid)).toBeGreaterThan(indexOf(untreated))
})

it('is a reason and no number where the canal cannot take an aid', () => {
  expect(airConductionAid(ear(), 'atresia')).toEqual({ id: 'air-conduction-aid', ok: false, reason: 'atresia' })
  expect(airConductionAid(ear(), 'draining-ear')).toMatchObject({ ok: false, reason: 'draining-ear' })
  expect(untreatedEar(ear({ air: new Map() }))).toMatchObject({ ok: false, reason: 'no-air-thresholds' })
})

it('keeps what was never measured out of the numbers', () => {
  const air = audiogram({ 500: 110, 1000: { none: 100 }, 2000: 60, 4000: 60 })
  const aid = forecastOf(airConductionAid(ear({ air, bone: new Map() }), undefined))
  const at = (wanted: number) => aid.byFrequency.find(({ frequency }) => frequency === wanted)?.threshold
  expect(at(500)).toEqual({ kind: 'absent', reason: 'beyond-maximum-output' })
  expect(at(1000)).toMatchObject({ kind: 'at-least', value: 50 })
  expect(at(2000)).toMatchObject({ kind: 'estimate', value: 30, basis: { remarks: ['gap-not-known'] } })
  expect(at(3000)).toEqual({ kind: 'absent', reason: 'no-unaided-threshold' })
  expect(forecastOf(untreatedEar(ear({ air }))).meanThreshold).toMatchObject({ kind: 'at-least', value: 82.5 })
})

it('does not forecast better hearing than the ear has without an aid, nor worse', () => {
  const aid = forecastOf(airConductionAid(ear({ air: flat(5), bone: flat(5) }), undefined))
  expect(numberIn(aid.meanThreshold)).toBe(5)
})
