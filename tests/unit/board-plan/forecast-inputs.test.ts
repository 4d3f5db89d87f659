import { expect, test } from 'vitest'
import { earTestsOf } from '../../../lib/board/forecast-inputs.ts'
import { HearingTest } from '../../../lib/board/records/hearing-test.ts'
import { SpeechTest } from '../../../lib/board/records/speech-test.ts'

const stamp = { author: 'ada', at: '2026-05-04T09:00:00.000Z' }
const closing = { by: 'ada', at: stamp.at, reason: 'newer test' }

const hearingTest = (id: string, fields: Record<string, unknown>) =>
  HearingTest.parse({
    ...stamp,
    id,
    ear: 'right',
    condition: 'unaided',
    performedOn: '2026-05-01',
    origin: 'typed',
    note: '',
    state: 'current',
    points: {},
    ...fields,
  })

const wordTest = (id: string, fields: Record<string, unknown>) =>
  SpeechTest.parse({
    ...stamp,
    id,
    ear: 'right',
    condition: 'unaided',
    performedOn: '2026-05-01',
    material: 'monosyllables',
    listName: 'A',
    items: 20,
    right: 18,
    speechLevel: 110,
    note: '',
    state: 'current',
    ...fields,
  })

const heard = (level: number) => ({ kind: 'heard', level })

test('takes the current unaided test of the ear, masked points first', () => {
  const tests = [
    hearingTest('old', { state: 'superseded', closing, points: { 'bone.unmasked.1000': heard(10) } }),
    hearingTest('other', { ear: 'left', points: { 'bone.unmasked.1000': heard(5) } }),
    hearingTest('now', { points: { 'bone.unmasked.1000': heard(30), 'bone.masked.1000': heard(40) } }),
  ]
  expect(earTestsOf('right', tests, [])?.bone.get(1000)).toMatchObject({ level: 40, masked: true })
})

test('has nothing when the only test of the ear was entered in error', () => {
  expect(earTestsOf('right', [hearingTest('wrong', { state: 'entered-in-error', closing })], [])).toBeUndefined()
})

test('takes unaided monosyllables in quiet of that ear, and no other word test', () => {
  const words = [
    wordTest('counts', {}),
    wordTest('aided', { condition: 'aided' }),
    wordTest('in-noise', { noiseLevel: 60 }),
    wordTest('other-ear', { ear: 'left' }),
    wordTest('sentences', { material: 'sentences' }),
    wordTest('superseded', { state: 'superseded', closing }),
  ]
  expect(earTestsOf('right', [hearingTest('now', {})], words)?.unaidedWords).toEqual([
    { right: 18, items: 20, levelDbSpl: 110 },
  ])
})
