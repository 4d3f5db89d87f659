import { Trigger } from '@/lib/board/records/contingency.ts'
import { isLimit } from '@/lib/board/trigger-sentence.ts'

type Measured = Extract<Trigger, { kind: 'measured' }>
type OnWords = Extract<Trigger, { kind: 'words' }>

/** A measured trigger while it is being written: the amount as it was typed, the reference kept also when unused. */
export interface MeasuredEntry extends Omit<Measured, 'kind' | 'amountDb' | 'reference'> {
  readonly amount: string
  readonly reference: Exclude<Measured['reference'], 'none'>
}

/** A trigger on word scores while it is being written: the level as it was typed. */
export interface WordsEntry extends Omit<OnWords, 'kind' | 'levelDbSpl'> {
  readonly level: string
}

/** A trigger while it is being written; all sorts are kept, so that changing one's mind loses nothing. */
export interface TriggerEntry {
  readonly kind: Trigger['kind']
  readonly measured: MeasuredEntry
  readonly words: WordsEntry
  readonly finding: string
}

export const measures = [
  'effective-gain',
  'functional-gain',
  'aided-threshold',
  'air-conduction',
  'bone-conduction',
  'air-bone-gap',
] as const
export const changes = ['falls-by', 'rises-by', 'is-below', 'is-above'] as const
export const conditions = ['aided', 'unaided', 'sound-field'] as const
export const wordsReferences = ['best-so-far', 'first-fitting', 'before-surgery'] as const
export const references = ['first-fitting', 'best-so-far', 'before-surgery', 'forecast', 'other-ear'] as const

/** Domain of the amount: a limit is any level that the record takes, a change is a positive difference. dB. */
export const amountRange = (change: Measured['change']): readonly [number, number] =>
  isLimit(change) ? [-20, 130] : [1, 130]

/** Starts from a trigger or, without one, from the loss of gain that a coupling that moves would show. */
export function entryOf(trigger: Trigger | undefined): TriggerEntry {
  const measured: MeasuredEntry = {
    measure: 'effective-gain',
    from: 2000,
    to: 4000,
    change: 'falls-by',
    amount: '10',
    reference: 'first-fitting',
  }
  const words: WordsEntry = { condition: 'aided', level: '65', reference: 'best-so-far' }
  const start: TriggerEntry = { kind: 'measured', measured, words, finding: '' }
  if (trigger === undefined) return start
  switch (trigger.kind) {
    case 'found':
      return { ...start, kind: 'found', finding: trigger.finding }
    case 'words': {
      const { kind, levelDbSpl, ...rest } = trigger
      return { ...start, kind, words: { ...rest, level: String(levelDbSpl) } }
    }
    case 'measured': {
      const { kind, amountDb, reference, ...rest } = trigger
      const held = reference === 'none' ? measured.reference : reference
      return { ...start, kind, measured: { ...rest, amount: String(amountDb), reference: held } }
    }
    default:
      return trigger satisfies never
  }
}

/** The trigger as the record takes it; undefined while something in it is missing or out of range. */
export function triggerOf({ kind, measured, words, finding }: TriggerEntry): Trigger | undefined {
  if (kind === 'found') return Trigger.safeParse({ kind, finding: finding.trim() }).data
  if (kind === 'words') {
    const { level, ...rest } = words
    return Trigger.safeParse({ kind, ...rest, levelDbSpl: numberOf(level) }).data
  }
  const { amount, reference, ...rest } = measured
  const amountDb = numberOf(amount)
  const [least, most] = amountRange(measured.change)
  if (!(amountDb >= least && amountDb <= most)) return undefined
  return Trigger.safeParse({ kind, ...rest, amountDb, reference: isLimit(measured.change) ? 'none' : reference }).data
}

const numberOf = (typed: string): number => (typed.trim() === '' ? Number.NaN : Number(typed.replace(',', '.')))
