import { describe, expect, it } from 'vitest'
import { asymmetry } from '../../../lib/audiometry/asymmetry.ts'
import { audiogram } from '../../fixtures/audiograms.ts'

const good = audiogram({ 500: 20, 1000: 20, 2000: 20, 4000: 20, 8000: 20 })

describe('asymmetry with something missing', () => {
  it('is not evaluable, never "no"', () => {
    const poor = audiogram({ 500: 20, 1000: 20, 2000: 20, 4000: 20 })
    const result = asymmetry({ audiograms: { right: poor, left: good } }, 'ng98')
    expect(result).toMatchObject({ outcome: 'not evaluable', missing: [8000] })
  })

  it('is still asymmetric when another pair decides it, and names the poorer ear', () => {
    const poor = audiogram({ 500: 40, 1000: 40, 2000: 20 })
    const result = asymmetry({ audiograms: { right: good, left: poor } }, 'ng98')
    expect(result).toMatchObject({ outcome: 'asymmetric', poorerEar: 'left', missing: [4000, 8000] })
  })

  it('does not jump over an untested frequency of the list', () => {
    const poor = audiogram({ 500: 20, 1000: 40, 4000: 40, 8000: 20 })
    expect(asymmetry({ audiograms: { right: poor, left: good } }, 'ng98').outcome).toBe('not evaluable')
  })

  it('needs word scores before it denies by aao15', () => {
    const result = asymmetry({ audiograms: { right: good, left: good } }, 'aao15')
    expect(result).toMatchObject({ outcome: 'not evaluable', wordScoresMissing: true })
  })

  it('counts no response as at least the limit', () => {
    const dead = audiogram({ 3000: { none: 110 } })
    expect(asymmetry({ audiograms: { right: dead, left: audiogram({ 3000: 20 }) } }, 'rule-3000').outcome).toBe(
      'asymmetric',
    )
  })

  it('refuses a word score above 100 %', () => {
    const input = { audiograms: { right: good, left: good }, wordScores: { right: 101, left: 90 } }
    expect(() => asymmetry(input, 'aao15')).toThrow('wordScores.right is 101, but must be from 0 to 100 %')
  })
})
