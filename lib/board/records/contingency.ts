import { z } from 'zod'
import { FrequencyHz } from '../../units/frequencies.ts'
import { LongText, Moment, ParticipantId, Rank, ShortText, stampFields } from '../identity.ts'

/** A trigger that can be read off measurements, or one that somebody finds (at operation, at a visit). */
export const Trigger = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('measured'),
      measure: z.enum(['air-conduction', 'bone-conduction', 'air-bone-gap', 'aided-threshold', 'effective-gain']),
      from: FrequencyHz,
      to: FrequencyHz,
      change: z.enum(['falls-by', 'rises-by', 'is-below', 'is-above']),
      /** dB: a difference for falls-by and rises-by, otherwise the limit itself */
      amountDb: z.number().min(-20).max(130),
      reference: z.enum(['before-surgery', 'first-fitting', 'best-so-far', 'forecast', 'other-ear', 'none']),
    })
    .refine((trigger) => trigger.from <= trigger.to, {
      path: ['to'],
      message: 'the band ends where it begins or above',
    })
    .refine(
      (trigger) => (trigger.reference === 'none') === (trigger.change === 'is-below' || trigger.change === 'is-above'),
      {
        path: ['reference'],
        message: 'a change is held against a reference; a limit is not',
      },
    ),
  z.strictObject({ kind: z.literal('found'), finding: ShortText.min(1) }),
])
export type Trigger = z.infer<typeof Trigger>

export const ContingencyState = z.enum(['watching', 'met', 'acted-on', 'stood-down'])
export type ContingencyState = z.infer<typeof ContingencyState>

/** "If this happens, we do that", with its state and the last hand that moved it. */
export const Contingency = z.strictObject({
  ...stampFields,
  rank: Rank,
  trigger: Trigger,
  plan: LongText.min(1),
  state: ContingencyState,
  moved: z.strictObject({ by: ParticipantId, at: Moment, why: ShortText }).optional(),
})
export type Contingency = z.infer<typeof Contingency>
