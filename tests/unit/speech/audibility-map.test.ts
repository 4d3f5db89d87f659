import { describe, expect, it } from 'vitest'
import { audibilityMap } from '../../../lib/speech/audibility-map.ts'
import { unaidedIndex, wordsAt65InQuiet } from '../../../lib/speech/ear-index.ts'
import { audiogram } from '../../fixtures/audiograms.ts'

const mapOf = (level: number, noiseDbSpl?: number) =>
  audibilityMap(
    unaidedIndex(
      { air: audiogram({ 250: level, 8000: level }) },
      noiseDbSpl === undefined
        ? wordsAt65InQuiet
        : { ...wordsAt65InQuiet, noise: { kind: 'speech-shaped', overallDbSpl: noiseDbSpl } },
    ),
  )

describe('audibility map', () => {
  it('spans the 30 dB range of speech', () => {
    for (const band of mapOf(20)) expect(band.peaksDbHl - band.weakestDbHl).toBeCloseTo(30, 10)
  })

  it('places normal speech at the hearing levels that tables of the standard give', () => {
    // 1 kHz: 25.01 dB per Hz at 62.36 dB SPL, internal noise -12.5 dB: 25.01 + 12.5 + (65 - 62.36) = 40.15 dB HL.
    const band = mapOf(0).find(({ frequencyHz }) => frequencyHz === 1000)
    expect(((band?.peaksDbHl ?? 0) + (band?.weakestDbHl ?? 0)) / 2).toBeCloseTo(40.15, 2)
  })

  it('is wholly audible above the threshold, half where the threshold crosses the middle, silent below', () => {
    const at1000 = (level: number) => mapOf(level).find(({ frequencyHz }) => frequencyHz === 1000)?.audibleProportion
    expect(at1000(20)).toBe(1)
    expect(at1000(40)).toBeCloseTo(0.505, 3)
    expect(at1000(60)).toBe(0)
  })

  it('tells what limits each band', () => {
    expect(mapOf(60).every((band) => band.limitedBy === 'threshold')).toBe(true)
    const inNoise = mapOf(10, 65)
    expect(inNoise.every((band) => band.limitedBy === 'masking')).toBe(true)
    expect(inNoise.every((band) => band.limitDbHl > band.thresholdDbHl)).toBe(true)
  })
})
