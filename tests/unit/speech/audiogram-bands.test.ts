import { describe, expect, it } from 'vitest'
import { bandThresholds, interpolateToBands } from '../../../lib/speech/audiogram-bands.ts'
import { audiogram } from '../../fixtures/audiograms.ts'

describe('thresholds of bands', () => {
  it('are interpolated against the logarithm of frequency', () => {
    const bands = bandThresholds(audiogram({ 1000: 20, 4000: 60 }), [1000, 2000, 4000])
    expect(bands.map((band) => band.levelDbHl)).toEqual([20, 40, 60])
  })

  it('hold the nearest tested value outside the tested range, and say so', () => {
    const bands = bandThresholds(audiogram({ 1000: 20, 4000: 60 }), [160, 1000, 8000])
    expect(bands.map((band) => band.levelDbHl)).toEqual([20, 20, 60])
    expect(bands.map((band) => band.held)).toEqual([true, false, true])
  })

  it('stand at the limit where nothing was heard, as lower bounds of every band that leans on it', () => {
    const bands = bandThresholds(audiogram({ 1000: 20, 2000: 40, 4000: { none: 100 } }), [1000, 2000, 3150, 8000])
    expect(bands.map((band) => band.lowerBound)).toEqual([false, false, true, true])
    expect(bands.at(-1)?.levelDbHl).toBe(100)
    const [between] = bandThresholds(audiogram({ 1000: { none: 100 }, 4000: 60 }), [2000])
    expect(between).toMatchObject({ levelDbHl: 80, lowerBound: true })
  })

  it('leave out what could not be tested', () => {
    const bands = bandThresholds(audiogram({ 1000: 20, 2000: 'could-not-test', 4000: 60 }), [2000])
    expect(bands[0]?.levelDbHl).toBe(40)
  })

  it('do not depend on the order of entry', () => {
    const forward = bandThresholds(audiogram({ 500: 10, 2000: 50 }), [1000])
    expect(bandThresholds(new Map([...audiogram({ 500: 10, 2000: 50 })].toReversed()), [1000])).toEqual(forward)
  })

  it.each([
    { what: 'an empty audiogram', points: {} },
    { what: 'only thresholds that could not be tested', points: { 1000: 'could-not-test' as const } },
  ])('cannot come from $what', ({ points }) => {
    expect(() => bandThresholds(audiogram(points), [1000])).toThrow(/number of tested frequencies.*at least 1/)
  })

  it('cannot come from a level that no audiometer gives', () => {
    expect(() => bandThresholds(audiogram({ 1000: 200 }), [1000])).toThrow(/1000 Hz is 200/)
  })

  it('are the one point everywhere when only one was tested', () => {
    expect(interpolateToBands([{ frequencyHz: 1000, value: 7 }], [160, 1000, 8000])).toEqual([7, 7, 7])
  })
})
