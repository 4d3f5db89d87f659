import { describe, expect, it } from 'vitest'
import { nearestTest } from '../../../app/board/speech/index-from-tests.ts'
import { readScore, rolloversIn } from '../../../app/board/speech/score-reading.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'
import { speechTest } from '../../fixtures/speech-tests.ts'

const closing = { by: 'p-1', at: '2026-03-03T09:00:00.000Z', reason: 'repeated' }
const air = (level: number) =>
  points(Object.fromEntries([250, 500, 1000, 2000, 4000, 8000].map((hz) => [`air.unmasked.${hz}`, level])))

describe('a score', () => {
  it('comes with its Wilson interval', () => {
    // R 4.2.2: prop.test(41, 50, correct = FALSE)$conf.int is 0.6920 to 0.9023
    const { interval } = readScore(speechTest({ items: 50, right: 41 }), [], [])
    expect(interval?.low).toBeCloseTo(0.692, 4)
    expect(interval?.high).toBeCloseTo(0.9023, 4)
  })

  it('has no interval and no comparison when it counts phonemes, which depend on one another', () => {
    const before = speechTest({ id: 's-0', material: 'phonemes', performedOn: '2026-01-02' })
    const reading = readScore(speechTest({ material: 'phonemes' }), [before], [])
    expect(reading.interval).toBeUndefined()
    expect(reading.change).toBeUndefined()
  })

  it('is held against the last earlier one of the same setting by the critical range', () => {
    // Thornton and Raffin 1978, 25 words (from memory, unconfirmed): 68 to 96 % cannot be told apart from 88 %
    const earlier = speechTest({
      id: 's-0',
      items: 25,
      right: 22,
      performedOn: '2026-01-02',
      state: 'superseded',
      closing,
    })
    const older = speechTest({ ...earlier, id: 's-00', right: 3, performedOn: '2025-01-02' })
    const others = [
      older,
      earlier,
      speechTest({ id: 's-9', items: 25, right: 1, performedOn: '2026-02-02', ear: 'left' }),
    ]
    const verdictOf = (right: number) => {
      const { change } = readScore(speechTest({ items: 25, right }), others, [])
      return [change?.earlier.id, change?.comparison.verdict]
    }
    expect(verdictOf(17)).toEqual(['s-0', 'no-significant-difference'])
    expect(verdictOf(16)).toEqual(['s-0', 'lower'])
    expect(verdictOf(25)).toEqual(['s-0', 'higher'])
  })

  it('is never held against one entered in error', () => {
    const wrong = speechTest({ id: 's-0', performedOn: '2026-01-02', state: 'entered-in-error', closing })
    expect(readScore(speechTest(), [wrong], []).change).toBeUndefined()
  })

  it('with the device is held against the one without, whatever came first', () => {
    const without = speechTest({ id: 's-0', right: 2, performedOn: '2026-04-02', condition: 'sound-field' })
    const reading = readScore(speechTest({ condition: 'aided', right: 18 }), [without], [])
    expect(reading.benefit?.comparison.verdict).toBe('higher')
    expect(reading.change).toBeUndefined()
  })

  it('is held against the audiogram nearest in time', () => {
    const old = hearingTest({ id: 't-old', performedOn: '2020-03-02', state: 'superseded', closing, points: air(100) })
    const near = hearingTest({ id: 't-near', points: air(0) })
    const { expectation } = readScore(speechTest({ right: 5 }), [], [old, near])
    expect(expectation).toMatchObject({ kind: 'known', audiogram: { id: 't-near' }, against: { verdict: 'below' } })
    expect(nearestTest([old, near], 'right', 'unaided', '2020-05-01')?.id).toBe('t-old')
  })

  it('is predicted by the words that its list is named after; others are stood in for, and say so', () => {
    const wordsOf = (listName: string) => {
      const { expectation } = readScore(speechTest({ listName }), [], [hearingTest({ points: air(30) })])
      return expectation.kind === 'known' ? expectation.words : undefined
    }
    const nu6 = { material: 'nu6', standIn: false }
    expect(['NU-6', 'nu6 list 2A', 'NU No. 6, form B'].map(wordsOf)).toEqual([nu6, nu6, nu6])
    expect(wordsOf('CID W-22 1A')).toEqual({ material: 'cid-w22', standIn: false })
    expect(['', 'list 3', 'NU-60', 'menu 6'].map((name) => wordsOf(name)?.standIn)).toEqual([true, true, true, true])
  })

  it('says why there is no prediction', () => {
    const becauseOf = (parts: Parameters<typeof speechTest>[0], tests = [hearingTest()]) => {
      const { expectation } = readScore(speechTest(parts), [], tests)
      return expectation.kind === 'not-known' ? expectation.because : expectation.kind
    }
    expect(becauseOf({ ear: 'both' })).toBe('both-ears')
    expect(becauseOf({ material: 'digits' })).toBe('material')
    expect(becauseOf({ speechLevel: 130 })).toBe('level')
    expect(becauseOf({ speechLevel: 65, noiseLevel: -10 })).toBe('level')
    expect(becauseOf({ condition: 'aided' })).toBe('no-audiogram')
    expect(becauseOf({}, [hearingTest({ points: {} })])).toBe('no-audiogram')
    expect(becauseOf({})).toBe('known')
  })
})

describe('rollover', () => {
  const at = (speechLevel: number, right: number, parts = {}) =>
    speechTest({ id: `s-${speechLevel}-${right}`, items: 25, speechLevel, right, ...parts })

  it('is read from the levels of one ear and day', () => {
    // (92 - 44) / 92 = 0.5217
    const [reading] = rolloversIn([at(65, 23), at(85, 11)])
    expect(reading?.result).toMatchObject({ kind: 'evaluable', best: { levelDb: 65 }, poorest: { levelDb: 85 } })
    expect(reading?.result.kind === 'evaluable' && reading.result.index).toBeCloseTo(0.5217, 4)
  })

  it('counts lists at one level as one longer list', () => {
    const [reading] = rolloversIn([at(65, 23), at(65, 25, { id: 's-again' }), at(85, 11)])
    expect(reading?.result).toMatchObject({ best: { score: { correct: 48, presented: 50 } } })
  })

  it('needs two levels, the same day, quiet, and current scores', () => {
    expect(rolloversIn([at(65, 23)])).toEqual([])
    expect(rolloversIn([at(65, 23), at(85, 11, { performedOn: '2026-03-03' })])).toEqual([])
    expect(rolloversIn([at(65, 23), at(85, 11, { noiseLevel: 60 })])).toEqual([])
    expect(rolloversIn([at(65, 23), at(85, 11, { state: 'superseded', closing })])).toEqual([])
  })
})
