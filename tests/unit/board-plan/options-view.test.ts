import { describe, expect, it } from 'vitest'
import { letters, mostLaid, toggled } from '../../../app/board/plan/options-laid.ts'
import { inOrder, marginOver, optionOrders } from '../../../app/board/plan/options-sort.ts'
import type { EarOption } from '../../../lib/forecast/ear-options.ts'
import { earOptions } from '../../../lib/forecast/ear-options.ts'
import { createMiddleEar } from '../../../lib/middle-ear/drive-change.ts'
import { audiogram } from '../../fixtures/audiograms.ts'
import { ear, inputs, planned } from '../../fixtures/forecast-ear.ts'

const middleEar = createMiddleEar()
const optionsOf = (given: Parameters<typeof ear>[0], plan = planned({ incus: 'missing' })) =>
  earOptions({ ...inputs({ tests: ear(given) }), plan }, { scenario: {}, actuator: 'floating-mass', middleEar })
const options = optionsOf({})
const aided = ({ outcome }: EarOption) => {
  const mean = outcome.ok ? outcome.forecast.fourTone.aidedThreshold : undefined
  return mean?.kind === 'estimate' ? mean.value : Number.POSITIVE_INFINITY
}

describe('an order of the options', () => {
  it('keeps every option once', () => {
    for (const order of optionOrders) expect(new Set(inOrder(options, order))).toEqual(new Set(options))
  })
  it('puts the best aided mean first and refusals last', () => {
    const values = inOrder(options, 'aided').map(aided)
    expect(values).toEqual(values.toSorted((a, b) => (a === b ? 0 : a - b)))
    expect(inOrder(options, 'aided').at(-1)?.outcome.ok).toBe(false)
  })
  it('is that of the profiles unless another is wanted', () => {
    expect(inOrder(options, 'profiles')).toBe(options)
  })
})

describe('the margin to the fitting range', () => {
  it('is that of the least favourable frequency', () => {
    const bone = audiogram({ 500: 20, 1000: 20, 2000: 20, 3000: 20, 4000: 60 })
    const [option] = optionsOf({ bone }, planned())
    if (!option?.outcome.ok) throw new Error('expected a forecast')
    expect(marginOver(option.outcome.forecast)).toEqual({ low: 85 - 60 - 30, high: 100 - 60 - 30, atMost: false })
  })
  it('is a bound where bone conduction gave no response', () => {
    const bone = audiogram({ 500: 20, 1000: 20, 2000: 20, 3000: 20, 4000: { none: 70 } })
    const [option] = optionsOf({ bone }, planned())
    if (!option?.outcome.ok) throw new Error('expected a forecast')
    expect(marginOver(option.outcome.forecast)).toMatchObject({ atMost: true })
  })
})

describe('options on the chart', () => {
  it('are three at most, in the order of their letters', () => {
    const laid = ['p', 'q', 'r', 's'].reduce<readonly string[]>(toggled, [])
    expect(laid).toEqual(['p', 'q', 'r'])
    expect(mostLaid).toBe(letters.length)
    expect(toggled(laid, 'q')).toEqual(['p', 'r'])
  })
})
