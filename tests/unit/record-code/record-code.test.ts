import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import { describe, expect, it } from 'vitest'
import { SpeechTest } from '../../../lib/board/records/speech-test.ts'
import { parseRecordCode, recordCode, speechTestCode } from '../../../lib/interchange/record-code.ts'
import { asDbHl } from '../../../lib/units/levels.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'
import { receptionTest } from '../../fixtures/speech-tests.ts'

const verification = { by: 'p-2', at: '2026-03-03T10:00:00.000Z' }
const closing = { by: 'p-2', at: '2026-03-04T10:00:00.000Z', reason: 'retested with insert earphones' }
const code = recordCode(hearingTest())

describe('record code', () => {
  it('is two groups of four and a check character, without letters that look alike', () => {
    expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]$/)
  })

  it.each([
    ['another author and time', { author: 'p-9', at: '2027-01-01T00:00:00.000Z' }],
    ['another id', { id: 't-99' }],
    ['a verification', { verification }],
    ['being superseded', { state: 'superseded', closing }],
    ['being entered in error', { state: 'entered-in-error', closing }],
    ['a remark', { note: 'tired towards the end' }],
    ['having been imported', { origin: 'imported' }],
  ] as const)('stays the same with %s', (_, parts) => {
    expect(recordCode(hearingTest(parts))).toBe(code)
  })

  it.each([
    ['the other ear', { ear: 'left' }],
    ['another day', { performedOn: '2026-03-03' }],
    ['another earphone', { airTransducer: 'insert' }],
    ['another place of the vibrator', { boneTransducer: 'bone-forehead' }],
    ['the earphone left open', { airTransducer: undefined }],
    ['a device', { device: 'active middle-ear implant' }],
    ['the repeat at 1 kHz', { repeatAt1000: asDbHl(60) }],
    ['no points', { points: {} }],
    ['a masked instead of an unmasked point', { points: points({ 'air.masked.500': 60 }) }],
  ] as const)('changes with %s', (_, parts) => {
    expect(recordCode({ ...hearingTest(), ...parts } as ReturnType<typeof hearingTest>)).not.toBe(code)
  })

  it('tells no response at a limit from a threshold at that level', () => {
    const heard = hearingTest({ points: points({ 'air.unmasked.8000': 100 }) })
    const none = hearingTest({ points: points({ 'air.unmasked.8000': { none: 100 } }) })
    expect(recordCode(heard)).not.toBe(recordCode(none))
  })

  it('does not tell two spellings apart that look the same on paper', () => {
    const composed = hearingTest({ condition: 'aided', device: 'prothèse', points: {} })
    const decomposed = hearingTest({ condition: 'aided', device: ' prothe\u0300se ', points: {} })
    expect(recordCode(composed)).toBe(recordCode(decomposed))
  })

  it('of a speech test changes with its score and not with its verification', () => {
    const test = SpeechTest.parse({
      id: 's-1',
      author: 'p-1',
      at: '2026-03-02T09:00:00.000Z',
      ear: 'right',
      condition: 'aided',
      performedOn: '2026-03-02',
      material: 'monosyllables',
      listName: 'list 4',
      items: 50,
      right: 41,
      speechLevel: 65,
      note: '',
      state: 'current',
    })
    expect(speechTestCode({ ...test, verification })).toBe(speechTestCode(test))
    expect(speechTestCode({ ...test, right: 40 })).not.toBe(speechTestCode(test))
    const threshold = receptionTest()
    const fiveMore = receptionTest({ receptionThreshold: threshold.receptionThreshold + 5 })
    expect(speechTestCode(fiveMore)).not.toBe(speechTestCode(threshold))
  })
})

describe('a typed record code', () => {
  const bare = code.replaceAll('-', '')

  it.each([
    ['in lower case', code.toLowerCase()],
    ['without dashes', bare],
    ['with spaces around and between', `  ${[...bare].join(' ')} `],
    ['with the dashes of a word processor', code.replaceAll('-', '–')],
    ['in full-width characters', code.replace(/[!-~]/g, (c) => String.fromCharCode(c.charCodeAt(0) + 0xfee0))],
  ])('is read %s', (_, typed) => {
    expect(parseRecordCode(typed)).toEqual({ ok: true, code })
  })

  // Worked out by hand modulo x^5 + x^2 + 1: the last digit counts x times, so 1 gives 2 ("2"), and V, which is 27 or
  // 11011, gives 110110 xor 100101 = 10011, which is 19 ("K").
  it('takes O for 0, I and L for 1, U for V', () => {
    expect(parseRecordCode('oooo-oooi-2')).toEqual({ ok: true, code: '0000-0001-2' })
    expect(parseRecordCode('OOOO-OOOL-2')).toEqual({ ok: true, code: '0000-0001-2' })
    expect(parseRecordCode('0000-000u-k')).toEqual({ ok: true, code: '0000-000V-K' })
  })

  it('names what is wrong with it', () => {
    expect(parseRecordCode('')).toEqual({ ok: false, problem: 'length', characters: 0, expected: 9 })
    expect(parseRecordCode('0000-0001')).toEqual({ ok: false, problem: 'length', characters: 8, expected: 9 })
    expect(parseRecordCode('00?0-0001-2')).toEqual({ ok: false, problem: 'character', character: '?', position: 3 })
    expect(parseRecordCode('0000-0001-3')).toEqual({ ok: false, problem: 'check' })
  })

  it('stays quick for a text of 100,000 characters', () => {
    expect(parseRecordCode('0'.repeat(100_000))).toMatchObject({ ok: false, problem: 'length' })
  })
})

describe('the hash below it', () => {
  it('is SHA-256: the example of one block of FIPS 180-4 (NIST, "abc")', () => {
    expect(bytesToHex(sha256(utf8ToBytes('abc')))).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    )
  })
})
