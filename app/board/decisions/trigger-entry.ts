import { Trigger } from '@/lib/board/records/contingency.ts'
import { isLimit } from '@/lib/board/trigger-sentence.ts'

type Measured = Extract<Trigger, { kind: 'measured' }>

/** A measured trigger while it is being written: the amount as it was typed, the reference kept also when unused. */
export interface MeasuredEntry extends Omit<Measured, 'kind' | 'amountDb' | 'reference'> {
  readonly amount: string
  readonly reference: Exclude<Measured['reference'], 'none'>
}

/** A trigger while it is being written; both sorts are kept, so that changing one's mind loses nothing. */
export interface TriggerEntry {
  readonly kind: Trigger['kind']
  readonly measured: MeasuredEntry
  readonly finding: string
}

export const measures = [
  'effective-gain',
  'aided-threshold',
  'air-conduction',
  'bone-conduction',
  'air-bone-gap',
] as const
export const changes = ['falls-by', 'rises-by', 'is-below', 'is-above'] as const
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
  if (trigger === undefined) return { kind: 'measured', measured, finding: '' }
  if (trigger.kind === 'found') return { kind: 'found', measured, finding: trigger.finding }
  const { kind, amountDb, reference, ...rest } = trigger
  return {
    kind,
    measured: { ...rest, amount: String(amountDb), reference: reference === 'none' ? measured.reference : reference },
    finding: '',
  }
}

/** The trigger as the record takes it; undefined while something in it is missing or out of range. */
export function triggerOf({ kind, measured, finding }: TriggerEntry): Trigger | undefined {
  if (kind === 'found') return Trigger.safeParse({ kind, finding: finding.trim() }).data
  const { amount, reference, ...rest } = measured
  const amountDb = amount.trim() === '' ? Number.NaN : Number(amount.replace(',', '.'))
  const [least, most] = amountRange(measured.change)
  if (!(amountDb >= least && amountDb <= most)) return undefined
  return Trigger.safeParse({ kind, ...rest, amountDb, reference: isLimit(measured.change) ? 'none' : reference }).data
}
