import * as z from 'zod/mini'
import { useKeptText } from '@/app/components/kept-text.ts'
import type { DeviceSettings, Visit } from '@/lib/board/records/visit.ts'

export const changes = ['as-before', 'fine-tuned', 'fitted-anew', 'switched-off'] as const

/** What is found at a visit while it is being written. */
const Entry = z.strictObject({
  change: z.enum([...changes, '']),
  hours: z.string(),
  words: z.string(),
  findings: z.string(),
  note: z.string(),
})
type Entry = z.infer<typeof Entry>

/** Only what was typed, so that two people may fill in one visit. */
const Typed = z.partial(Entry)
export type TypedEntry = z.infer<typeof Typed>

const entryOf = ({ settings, findings, note }: Visit): Entry => ({
  change: settings?.change ?? '',
  hours: settings?.hoursADay?.toString() ?? '',
  words: settings?.words ?? '',
  findings,
  note,
})

/** The visit as it is written down, under what was typed since. */
export function entryUnder(typed: TypedEntry, visit: Visit): Entry {
  const { change, hours, words, findings, note } = entryOf(visit)
  return {
    change: typed.change ?? change,
    hours: typed.hours ?? hours,
    words: typed.words ?? words,
    findings: typed.findings ?? findings,
    note: typed.note ?? note,
  }
}

/** @returns NaN for nothing and for what is no number */
export const hoursOf = (typed: string): number => (typed.trim() === '' ? Number.NaN : Number(typed.replace(',', '.')))

export function settingsOf({ change, hours, words }: Entry): DeviceSettings | undefined {
  if (change === '') return undefined
  const hoursADay = hoursOf(hours)
  return { change, words: words.trim(), ...(Number.isNaN(hoursADay) ? {} : { hoursADay }) }
}

interface KeptEntry {
  readonly typed: TypedEntry
  set(patch: TypedEntry): void
  /** after it was written down */
  clear(): void
}

/** What was typed of a visit and not written down yet: kept when another visit is looked at, and over a reload. */
export function useKeptEntry(visit: string): KeptEntry {
  const { text, write, clear } = useKeptText(`visit:${visit}`)
  const typed = typedIn(text)
  return { typed, set: (patch) => write(JSON.stringify({ ...typed, ...patch })), clear }
}

/** What an older page kept in another form is not taken for this one. */
function typedIn(text: string): TypedEntry {
  if (text === '') return {}
  return Typed.safeParse(JSON.parse(text)).data ?? {}
}
