import * as z from 'zod/mini'
import { FrequencyHz } from '../../units/frequencies.ts'
import { DbSpl } from '../../units/levels.ts'
import { LongText, Moment, ParticipantId, Rank, RecordId, ShortText, stampFields } from '../identity.ts'
import { TestCondition } from './hearing-test.ts'

/** A trigger that can be read off thresholds or word scores, or one that somebody finds (at operation, at a visit). */
export const Trigger = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('measured'),
      measure: z.enum([
        'air-conduction',
        'bone-conduction',
        'air-bone-gap',
        'aided-threshold',
        'effective-gain',
        'functional-gain',
      ]),
      from: FrequencyHz,
      to: FrequencyHz,
      change: z.enum(['falls-by', 'rises-by', 'is-below', 'is-above']),
      /** dB: a difference for falls-by and rises-by, otherwise the limit itself */
      amountDb: z.number().check(z.minimum(-20), z.maximum(130)),
      reference: z.enum(['before-surgery', 'first-fitting', 'best-so-far', 'forecast', 'other-ear', 'none']),
    })
    .check(
      z.refine((trigger) => trigger.from <= trigger.to, {
        path: ['to'],
        message: 'the band ends where it begins or above',
      }),
      z.refine(
        (trigger) =>
          (trigger.reference === 'none') === (trigger.change === 'is-below' || trigger.change === 'is-above'),
        {
          path: ['reference'],
          message: 'a change is held against a reference; a limit is not',
        },
      ),
    ),
  z.strictObject({
    kind: z.literal('words'),
    condition: TestCondition,
    /** of monosyllables in quiet */
    levelDbSpl: DbSpl,
    /** below which the score falls by more than chance explains */
    reference: z.enum(['before-surgery', 'first-fitting', 'best-so-far']),
  }),
  z.strictObject({ kind: z.literal('found'), finding: ShortText.check(z.minLength(1)) }),
])
export type Trigger = z.infer<typeof Trigger>

export const ContingencyState = z.enum(['watching', 'met', 'acted-on', 'stood-down'])
export type ContingencyState = z.infer<typeof ContingencyState>

/** Where what was done goes on: the plan of the ear, a decision, another contingency, or a visit. */
export const NextStep = z.strictObject({
  kind: z.enum(['plan', 'notes', 'contingencies', 'visits']),
  id: RecordId,
})
export type NextStep = z.infer<typeof NextStep>

/** "If this happens, we do that", with its state and the last hand that moved it. */
export const Contingency = z
  .strictObject({
    ...stampFields,
    rank: Rank,
    trigger: Trigger,
    plan: LongText.check(z.minLength(1)),
    state: ContingencyState,
    /** the step that it was written in, or is filed under */
    step: z.optional(RecordId),
    moved: z.optional(
      z.strictObject({
        by: ParticipantId,
        at: Moment,
        why: ShortText,
        /** at which visit it was seen */
        visit: z.optional(RecordId),
      }),
    ),
    /** what was done about it, and what it led to */
    acted: z.optional(
      z.strictObject({
        by: ParticipantId,
        at: Moment,
        what: LongText.check(z.minLength(1)),
        next: z.optional(NextStep),
      }),
    ),
  })
  .check(
    z.refine((contingency) => contingency.acted === undefined || contingency.state === 'acted-on', {
      path: ['acted'],
      message: 'what was done belongs to a contingency that was acted on',
    }),
  )
export type Contingency = z.infer<typeof Contingency>
