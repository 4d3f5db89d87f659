import type { FrequencyHz } from '../units/frequencies.ts'
import type { Trigger } from './records/contingency.ts'

type Measured = Extract<Trigger, { kind: 'measured' }>
type OnWords = Extract<Trigger, { kind: 'words' }>

/** The words of one language, from which a trigger is read aloud. */
export interface TriggerWords {
  readonly measure: Readonly<Record<Measured['measure'], string>>
  readonly reference: Readonly<Record<Exclude<Measured['reference'], 'none'>, string>>
  frequency(hz: FrequencyHz): string
  band(from: FrequencyHz, to: FrequencyHz): string
  /** An amount with its unit: dB HL for a limit on a threshold, dB for a change, a gap or a gain. */
  amount(amountDb: number, unit: 'dB' | 'dB HL'): string
  change(parts: TriggerParts): string
  readonly condition: Readonly<Record<OnWords['condition'], string>>
  words(parts: WordsTriggerParts): string
}

/** A trigger on word scores, already in words. */
export interface WordsTriggerParts {
  readonly condition: string
  readonly levelDbSpl: number
  readonly reference: string
}

/** A measured trigger, already in words. */
export interface TriggerParts {
  readonly measure: string
  readonly place: string
  readonly change: Measured['change']
  readonly amount: string
  /** against what the change is held; empty for a limit */
  readonly reference: string
}

const thresholds: readonly Measured['measure'][] = ['air-conduction', 'bone-conduction', 'aided-threshold']
const limits: readonly Measured['change'][] = ['is-below', 'is-above']

/** Whether this change is a limit of its own instead of a difference from a reference. */
export const isLimit = (change: Measured['change']): boolean => limits.includes(change)

/**
 * Unit of a trigger's amount. The limit of a threshold is a hearing level (dB HL); a difference of two levels, a gap
 * and a gain are plain dB (ISO 8253-1 uses dB HL for levels only).
 */
export const amountUnit = ({ measure, change }: Pick<Measured, 'measure' | 'change'>): 'dB' | 'dB HL' =>
  isLimit(change) && thresholds.includes(measure) ? 'dB HL' : 'dB'

/** A trigger as the clause after "If", without a full stop. A found trigger is the finding as it was written. */
export function triggerSentence(trigger: Trigger, words: TriggerWords): string {
  if (trigger.kind === 'found') return trigger.finding
  if (trigger.kind === 'words') {
    const { condition, levelDbSpl, reference } = trigger
    return words.words({
      condition: words.condition[condition],
      levelDbSpl,
      reference: words.reference[reference],
    })
  }
  return words.change({
    measure: words.measure[trigger.measure],
    place: trigger.from === trigger.to ? words.frequency(trigger.from) : words.band(trigger.from, trigger.to),
    change: trigger.change,
    amount: words.amount(trigger.amountDb, amountUnit(trigger)),
    reference: trigger.reference === 'none' ? '' : words.reference[trigger.reference],
  })
}
