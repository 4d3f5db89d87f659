import type { NewSpeechTest } from '@/lib/board/edits/speech.ts'
import { CalendarDay, textLimits } from '@/lib/board/identity.ts'
import { mostItems, type SpeechTest } from '@/lib/board/records/speech-test.ts'
import { DbHl, DbSpl, hearingLevelRange, soundPressureRange } from '@/lib/units/levels.ts'

/** What stands in the fields of the form, as typed. */
export interface SpeechEntry {
  readonly measured: 'score' | 'reception'
  readonly ear: SpeechTest['ear']
  readonly condition: SpeechTest['condition']
  readonly performedOn: string
  readonly material: SpeechTest['material']
  readonly listName: string
  readonly items: string
  /** a count, or a percentage with its sign */
  readonly right: string
  readonly speechLevel: string
  /** empty: in quiet */
  readonly noiseLevel: string
  /** dB HL */
  readonly receptionThreshold: string
  readonly note: string
}

export type EntryFault =
  | { readonly code: 'missing' | 'not-a-whole-number' | 'not-a-number' | 'not-a-day' | 'future-day' }
  | { readonly code: 'out-of-range'; readonly low: number; readonly high: number }
  | { readonly code: 'more-than-items'; readonly items: number }
  | { readonly code: 'percent-out-of-range' }
  | { readonly code: 'percent-between-items'; readonly below: number; readonly above: number; readonly items: number }
  | { readonly code: 'too-long'; readonly length: number; readonly most: number }

export type EntryField =
  | 'performedOn'
  | 'listName'
  | 'items'
  | 'right'
  | 'speechLevel'
  | 'noiseLevel'
  | 'receptionThreshold'
  | 'note'
export type EntryFaults = Readonly<Partial<Record<EntryField, EntryFault>>>

export type ReadEntry =
  | { readonly ok: true; readonly test: NewSpeechTest }
  | { readonly ok: false; readonly faults: EntryFaults }

type Read<T> = { readonly value: T } | { readonly fault: EntryFault }

/**
 * Reads the fields of one speech test. Every field that counts is read, so that all faults are seen at once.
 * @param today ISO 8601; a test of a later day is refused
 */
export const readEntry = (entry: SpeechEntry, today: string): ReadEntry =>
  entry.measured === 'score' ? readScoreEntry(entry, today) : readReceptionEntry(entry, today)

const readCircumstances = (entry: SpeechEntry, today: string) => ({
  performedOn: day(entry.performedOn, today),
  listName: text(entry.listName, textLimits.short),
  note: text(entry.note, textLimits.long),
})

function readScoreEntry(entry: SpeechEntry, today: string): ReadEntry {
  const items = whole(entry.items, 1, mostItems)
  const read = {
    ...readCircumstances(entry, today),
    items,
    right: right(entry.right, 'value' in items ? items.value : undefined),
    speechLevel: level(entry.speechLevel, soundPressureRange),
    noiseLevel: entry.noiseLevel.trim() === '' ? { value: undefined } : level(entry.noiseLevel, soundPressureRange),
  }
  const { performedOn, listName, speechLevel, noiseLevel, note } = read
  if (
    'fault' in performedOn ||
    'fault' in listName ||
    'fault' in items ||
    'fault' in read.right ||
    'fault' in speechLevel ||
    'fault' in noiseLevel ||
    'fault' in note
  )
    return { ok: false, faults: faultsIn(read) }
  const { ear, condition, material } = entry
  const noise = noiseLevel.value === undefined ? {} : { noiseLevel: DbSpl.parse(noiseLevel.value) }
  return {
    ok: true,
    test: {
      ear,
      condition,
      performedOn: performedOn.value,
      material,
      listName: listName.value,
      items: items.value,
      right: read.right.value,
      speechLevel: DbSpl.parse(speechLevel.value),
      ...noise,
      note: note.value,
    },
  }
}

function readReceptionEntry(entry: SpeechEntry, today: string): ReadEntry {
  const read = {
    ...readCircumstances(entry, today),
    receptionThreshold: level(entry.receptionThreshold, hearingLevelRange),
  }
  const { performedOn, listName, receptionThreshold, note } = read
  if ('fault' in performedOn || 'fault' in listName || 'fault' in receptionThreshold || 'fault' in note)
    return { ok: false, faults: faultsIn(read) }
  const { ear, condition, material } = entry
  return {
    ok: true,
    test: {
      ear,
      condition,
      performedOn: performedOn.value,
      material,
      listName: listName.value,
      receptionThreshold: DbHl.parse(receptionThreshold.value),
      note: note.value,
    },
  }
}

function faultsIn(read: Readonly<Partial<Record<EntryField, Read<unknown>>>>): EntryFaults {
  const faults: Partial<Record<EntryField, EntryFault>> = {}
  for (const field of Object.keys(read) as EntryField[]) {
    const result = read[field]
    if (result !== undefined && 'fault' in result) faults[field] = result.fault
  }
  return faults
}

function day(typed: string, today: string): Read<string> {
  if (!CalendarDay.safeParse(typed).success) return { fault: { code: 'not-a-day' } }
  return typed > today ? { fault: { code: 'future-day' } } : { value: typed }
}

function text(typed: string, most: number): Read<string> {
  const trimmed = typed.trim()
  return trimmed.length > most ? { fault: { code: 'too-long', length: trimmed.length, most } } : { value: trimmed }
}

/** A minus sign as the page itself writes it, and a decimal comma. */
function numberFrom(typed: string): number | undefined {
  const plain = typed.trim().replace('\u2212', '-').replace(',', '.')
  return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : undefined
}

function whole(typed: string, low: number, high: number): Read<number> {
  if (typed.trim() === '') return { fault: { code: 'missing' } }
  const value = numberFrom(typed)
  if (value === undefined || !Number.isInteger(value)) return { fault: { code: 'not-a-whole-number' } }
  return value < low || value > high ? { fault: { code: 'out-of-range', low, high } } : { value }
}

function level(typed: string, { low, high }: { readonly low: number; readonly high: number }): Read<number> {
  if (typed.trim() === '') return { fault: { code: 'missing' } }
  const value = numberFrom(typed)
  if (value === undefined) return { fault: { code: 'not-a-number' } }
  return value < low || value > high ? { fault: { code: 'out-of-range', low, high } } : { value }
}

/** Items right, or the percentage: the record holds the count, because the list length decides what a score can tell. */
function right(typed: string, items: number | undefined): Read<number> {
  if (typed.trim().endsWith('%')) return fromPercent(typed.trim().slice(0, -1), items)
  const count = whole(typed, 0, mostItems)
  if ('fault' in count || items === undefined || count.value <= items) return count
  return { fault: { code: 'more-than-items', items } }
}

function fromPercent(typed: string, items: number | undefined): Read<number> {
  const percent = numberFrom(typed)
  if (percent === undefined) return { fault: { code: 'not-a-number' } }
  if (percent < 0 || percent > 100) return { fault: { code: 'percent-out-of-range' } }
  if (items === undefined) return { value: 0 }
  const count = (percent / 100) * items
  // A printed percentage is rounded to whole per cent: half of one is the most it can be off.
  if (Math.abs(Math.round(count) - count) <= 0.005 * items + 1e-9 && Math.round(count) <= items)
    return { value: Math.round(count) }
  return {
    fault: { code: 'percent-between-items', below: Math.floor(count), above: Math.ceil(count), items },
  }
}
