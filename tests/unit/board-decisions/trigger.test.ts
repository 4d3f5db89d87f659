import { expect, test } from 'vitest'
import { entryOf, triggerOf } from '../../../app/board/decisions/trigger-entry.ts'
import { triggerWords } from '../../../app/messages/en/decisions.ts'
import { Trigger } from '../../../lib/board/records/contingency.ts'
import { triggerSentence } from '../../../lib/board/trigger-sentence.ts'

const measured = (part: object) =>
  Trigger.parse({
    kind: 'measured',
    measure: 'effective-gain',
    from: 2000,
    to: 4000,
    change: 'falls-by',
    amountDb: 10,
    reference: 'first-fitting',
    ...part,
  })

test('a trigger reads as a clause with its band, amount and reference', () => {
  expect(triggerSentence(measured({}), triggerWords)).toBe(
    'the effective gain at 2 to 4 kHz falls by 10 dB or more against first fitting',
  )
})

test('the limit of a threshold is a hearing level, that of a gain or gap is plain dB', () => {
  const limit = { change: 'is-above', reference: 'none', from: 500, to: 500, amountDb: 40 }
  expect(triggerSentence(measured({ ...limit, measure: 'aided-threshold' }), triggerWords)).toBe(
    'the aided threshold at 500 Hz is above 40 dB HL',
  )
  expect(triggerSentence(measured({ ...limit, measure: 'air-bone-gap' }), triggerWords)).toBe(
    'the air-bone gap at 500 Hz is above 40 dB',
  )
  expect(triggerSentence(measured({ measure: 'bone-conduction', change: 'rises-by' }), triggerWords)).toMatch(
    /10 dB or/,
  )
})

test('a band names its unit once unless it crosses 1 kHz', () => {
  expect(triggerWords.band(250, 500)).toBe('250 to 500 Hz')
  expect(triggerWords.band(500, 4000)).toBe('500 Hz to 4 kHz')
  expect(triggerWords.band(8000, 11200)).toBe('8 to 11.2 kHz')
})

const onWords = (levelDbSpl: number) =>
  Trigger.parse({ kind: 'words', condition: 'aided', levelDbSpl, reference: 'best-so-far' })

test('a trigger on words names its condition, level and reference', () => {
  expect(triggerSentence(onWords(65), triggerWords)).toBe(
    'the aided word score in quiet at 65 dB SPL falls by more than chance against the best result so far',
  )
})

test('a finding is the clause itself', () => {
  expect(triggerSentence({ kind: 'found', finding: 'the footplate is fixed' }, triggerWords)).toBe(
    'the footplate is fixed',
  )
})

test('every trigger comes back from its form as it was', () => {
  for (const trigger of [
    measured({}),
    measured({ change: 'is-below', reference: 'none', amountDb: -5 }),
    onWords(60),
    Trigger.parse({ kind: 'found', finding: 'the nerve is exposed' }),
  ])
    expect(triggerOf(entryOf(trigger))).toEqual(trigger)
})

test('the form gives no trigger while its amount is missing, out of range or no number', () => {
  const { measured: entry, words } = entryOf(undefined)
  const withAmount = (amount: string) =>
    triggerOf({ kind: 'measured', finding: '', words, measured: { ...entry, amount } })
  for (const amount of ['', ' ', 'ten', '0', '-5', '131', '1e9']) expect(withAmount(amount)).toBeUndefined()
  expect(withAmount('7,5')).toMatchObject({ amountDb: 7.5 })
  expect(
    triggerOf({ kind: 'measured', finding: '', words, measured: { ...entry, from: 4000, to: 2000 } }),
  ).toBeUndefined()
  for (const level of ['', 'loud', '141'])
    expect(triggerOf({ kind: 'words', finding: '', measured: entry, words: { ...words, level } })).toBeUndefined()
  expect(triggerOf({ kind: 'found', finding: '  ', words, measured: entry })).toBeUndefined()
})
