import { describe, expect, it } from 'vitest'
import { HearingTest } from '../../../lib/board/records/hearing-test.ts'
import { SpeechTest } from '../../../lib/board/records/speech-test.ts'
import { hearingTest } from '../../fixtures/hearing-tests.ts'
import { receptionTest, speechTest } from '../../fixtures/speech-tests.ts'

const isHearingTest = (record: object) => HearingTest.safeParse(record).success
const isSpeechTest = (record: object) => SpeechTest.safeParse(record).success

describe('a hearing test', () => {
  it('holds a repeat by air conduction only without a device and by earphones', () => {
    const bare = { ...hearingTest(), points: {}, repeatAt1000: 60 }
    expect(isHearingTest(bare)).toBe(true)
    expect(isHearingTest({ ...bare, repeatAt1000: 131 })).toBe(false)
    expect(isHearingTest({ ...bare, condition: 'aided' })).toBe(false)
  })
})

describe('a speech test', () => {
  it('holds a whole score', () => {
    const { right: _right, ...withoutCount } = speechTest()
    expect(isSpeechTest(speechTest())).toBe(true)
    expect(isSpeechTest(withoutCount)).toBe(false)
    expect(isSpeechTest({ ...speechTest(), right: 21 })).toBe(false)
  })

  it('or a reception threshold, not both and not neither', () => {
    const { receptionThreshold: _threshold, ...nothing } = receptionTest()
    expect(isSpeechTest(receptionTest())).toBe(true)
    expect(isSpeechTest(nothing)).toBe(false)
    expect(isSpeechTest({ ...speechTest(), receptionThreshold: 40 })).toBe(false)
    expect(isSpeechTest({ ...receptionTest(), noiseLevel: 60 })).toBe(false)
    expect(isSpeechTest({ ...receptionTest(), receptionThreshold: -25 })).toBe(false)
  })
})
