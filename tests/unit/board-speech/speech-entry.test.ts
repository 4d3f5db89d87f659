import { describe, expect, it } from 'vitest'
import { readEntry, type SpeechEntry } from '../../../app/board/speech/speech-entry.ts'

const today = '2026-05-04'
const typed = (parts: Partial<SpeechEntry> = {}): SpeechEntry => ({
  measured: 'score',
  ear: 'left',
  condition: 'aided',
  performedOn: today,
  material: 'monosyllables',
  listName: ' list 3 ',
  items: '20',
  right: '13',
  speechLevel: '65',
  noiseLevel: '',
  receptionThreshold: '',
  note: '',
  ...parts,
})
const faultsOf = (parts: Partial<SpeechEntry>) => {
  const read = readEntry(typed(parts), today)
  return read.ok ? {} : read.faults
}

describe('a speech test as typed', () => {
  it('is read with its numbers; without a noise level it was in quiet', () => {
    expect(readEntry(typed(), today)).toEqual({
      ok: true,
      test: {
        ear: 'left',
        condition: 'aided',
        performedOn: today,
        material: 'monosyllables',
        listName: 'list 3',
        items: 20,
        right: 13,
        speechLevel: 65,
        note: '',
      },
    })
    expect(readEntry(typed({ noiseLevel: '\u22125' }), today)).toMatchObject({ ok: true, test: { noiseLevel: -5 } })
  })

  it('takes the percentage instead of the count, also as it is rounded in print', () => {
    expect(readEntry(typed({ right: '65 %' }), today)).toMatchObject({ ok: true, test: { right: 13 } })
    expect(readEntry(typed({ right: '0%' }), today)).toMatchObject({ ok: true, test: { right: 0 } })
    expect(readEntry(typed({ right: '100%' }), today)).toMatchObject({ ok: true, test: { right: 20 } })
    // 2 of 3 is printed as 67 %
    expect(readEntry(typed({ right: '67%', items: '3' }), today)).toMatchObject({ ok: true, test: { right: 2 } })
  })

  it('refuses a percentage that no count of the list gives, and says which are near', () => {
    expect(faultsOf({ right: '63 %' }).right).toEqual({
      code: 'percent-between-items',
      below: 12,
      above: 13,
      items: 20,
    })
    expect(faultsOf({ right: '101 %' }).right).toEqual({ code: 'percent-out-of-range' })
    expect(faultsOf({ right: 'x%' }).right).toEqual({ code: 'not-a-number' })
  })

  it('is a reception threshold in dB HL without list, level and noise', () => {
    const reception = { measured: 'reception', items: '', right: '', speechLevel: '', noiseLevel: 'loud' } as const
    expect(readEntry(typed({ ...reception, receptionThreshold: '-5' }), today)).toEqual({
      ok: true,
      test: {
        ear: 'left',
        condition: 'aided',
        performedOn: today,
        material: 'monosyllables',
        listName: 'list 3',
        receptionThreshold: -5,
        note: '',
      },
    })
    expect(faultsOf({ ...reception, receptionThreshold: '135' })).toEqual({
      receptionThreshold: { code: 'out-of-range', low: -20, high: 130 },
    })
    expect(faultsOf(reception)).toEqual({ receptionThreshold: { code: 'missing' } })
  })

  it('names every fault at once', () => {
    expect(
      faultsOf({ items: '0', right: '', speechLevel: '200', noiseLevel: 'loud', performedOn: '2026-05-05' }),
    ).toEqual({
      items: { code: 'out-of-range', low: 1, high: 400 },
      right: { code: 'missing' },
      speechLevel: { code: 'out-of-range', low: -20, high: 140 },
      noiseLevel: { code: 'not-a-number' },
      performedOn: { code: 'future-day' },
    })
  })

  it('refuses more right than presented, halves, negative counts and what is no day', () => {
    expect(faultsOf({ right: '21' }).right).toEqual({ code: 'more-than-items', items: 20 })
    expect(faultsOf({ right: '12.5' }).right).toEqual({ code: 'not-a-whole-number' })
    expect(faultsOf({ right: '-1' }).right).toEqual({ code: 'out-of-range', low: 0, high: 400 })
    expect(faultsOf({ performedOn: '' }).performedOn).toEqual({ code: 'not-a-day' })
    expect(faultsOf({ listName: 'x'.repeat(301) }).listName).toEqual({ code: 'too-long', length: 301, most: 300 })
  })
})
