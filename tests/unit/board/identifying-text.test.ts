import { describe, expect, test } from 'vitest'
import { identifyingParts, looksIdentifying } from '../../../lib/board/identifying-text.ts'

const kindsIn = (text: string) => [...new Set(identifyingParts(text).map(({ kind }) => kind))]

describe('text that is pointed out', () => {
  test.each([
    ['Ada Example, born 12.03.1979, open cavity', 'name-and-birth-date'],
    ['Example, Ada (12/03/79)', 'name-and-birth-date'],
    ['1979-03-12 Ada M. Example', 'name-and-birth-date'],
    ['DOB: 3 March 1979', 'name-and-birth-date'],
    ['date of birth March 3, 1979', 'name-and-birth-date'],
    ['Åsa Öberg 3 maj, born on 03.05.1981', 'name-and-birth-date'],
    ['MRN 123456', 'record-number'],
    ['Patient ID: A-4711-22', 'record-number'],
    ['hospital no. 99 123', 'record-number'],
    ['seen before as 20391847', 'record-number'],
    ['call +49 30 1234567 first', 'phone-number'],
    ['call (030) 1234567', 'phone-number'],
    ['her number is 07700900123', 'phone-number'],
    ['phone: 555 0199', 'phone-number'],
    ['lives at 12 Example Street', 'postal-address'],
    ['Musterstraße 5', 'postal-address'],
    ['14 rue de la Paix', 'postal-address'],
    ['SW1A 1AA', 'postal-address'],
    ['D-10115 Berlin', 'postal-address'],
  ])('%s', (text, kind) => {
    expect(kindsIn(text)).toContain(kind)
    expect(looksIdentifying(text)).toBe(true)
  })

  test('names the words that look identifying', () => {
    expect(identifyingParts('Please call +49 30 1234567 today')).toEqual([
      { kind: 'phone-number', excerpt: '+49 30 1234567' },
    ])
  })

  test('a phone number is not named a record number too', () => {
    expect(kindsIn('07700900123')).toEqual(['phone-number'])
  })
})

describe('what people write about a case all day', () => {
  test.each([
    'Is the incus missing, and is the stapes mobile?',
    'Pure-tone average 62 dB HL at 500, 1000, 2000 and 4000 Hz; no response at 16000 Hz.',
    'Air-bone gap 500/1000/2000/4000 Hz: 35/40/30/45 dB',
    'Second look planned 12.03.2026, test of 2026-02-01 superseded',
    'Right Ear 01.03.2026',
    'Round Window or Oval Window? See visit 14.09.2025.',
    'Aided 35 dB HL at 6 kHz, -5 dB at 250 Hz',
    'Step 3: 10:45 to 11:20',
    'In 20 of 24 ears the gap closed to within 10 dB (95 % interval 63 to 95 %).',
    'Contingency met on 03.04.2026',
    'A man of 47, right ear, open mastoid cavity',
    '',
  ])('%s', (text) => {
    expect(identifyingParts(text)).toEqual([])
  })
})

test('a long text without anything identifying is read quickly', () => {
  const started = performance.now()
  expect(looksIdentifying('The stapes is mobile, 45 dB at 2 kHz. '.repeat(2700))).toBe(false)
  expect(looksIdentifying('0 '.repeat(50_000))).toBe(false)
  expect(performance.now() - started).toBeLessThan(2000)
})
