import { expect, test } from 'vitest'
import { likeness, wordsOf } from '../../../lib/board/likeness.ts'

const like = (a: string, b: string) => likeness(wordsOf(a), wordsOf(b))

test('likeness is twice the shared words over all words of both', () => {
  // 4 and 5 different words, 3 of them shared: 2 * 3 / 9
  expect(like('gain at 4 kHz', 'what gain at 4 dB?')).toBeCloseTo(6 / 9, 12)
  expect(like('round window', 'Window, round!')).toBe(1)
  expect(like('round window', 'stapes head')).toBe(0)
})

test('a text without words is like nothing', () => {
  expect(like('???', '???')).toBe(0)
})

test('words of other scripts count', () => {
  expect(like('كسب الجهاز', 'كسب')).toBeCloseTo(2 / 3, 12)
})
