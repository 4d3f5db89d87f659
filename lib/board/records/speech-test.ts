import * as z from 'zod/mini'
import { Ear } from '../../units/frequencies.ts'
import { DbHl, DbSpl } from '../../units/levels.ts'
import { CalendarDay, LongText, RecordId, ShortText, stampFields } from '../identity.ts'
import { Closing, TestCondition, TestState, Verification } from './hearing-test.ts'

/** Longest list that a score may stand on. */
export const mostItems = 400

/**
 * A word-recognition score (so many items right of a list, at a level, in quiet or in noise), or else a speech reception
 * threshold: the hearing level in dB HL at which half of the items are right.
 */
export const SpeechTest = z
  .strictObject({
    ...stampFields,
    ear: z.union([Ear, z.literal('both')]),
    condition: TestCondition,
    performedOn: CalendarDay,
    /** as in a hearing test */
    visit: z.optional(RecordId),
    material: z.enum(['monosyllables', 'disyllables', 'phonemes', 'sentences', 'digits']),
    listName: ShortText,
    items: z.optional(z.int().check(z.minimum(1), z.maximum(mostItems))),
    right: z.optional(z.int().check(z.minimum(0), z.maximum(mostItems))),
    speechLevel: z.optional(DbSpl),
    noiseLevel: z.optional(DbSpl),
    receptionThreshold: z.optional(DbHl),
    note: LongText,
    state: TestState,
    verification: z.optional(Verification),
    closing: z.optional(Closing),
  })
  .check(
    z.superRefine((test, context) => {
      for (const field of ['items', 'right', 'speechLevel'] as const)
        if ((test[field] === undefined) !== (test.receptionThreshold !== undefined))
          context.addIssue({
            code: 'custom',
            path: [field],
            message: 'a speech test holds a score with its list and level, or a reception threshold without them',
          })
      if (test.noiseLevel !== undefined && test.receptionThreshold !== undefined)
        context.addIssue({ code: 'custom', path: ['noiseLevel'], message: 'a reception threshold is one in quiet' })
      if (test.items !== undefined && test.right !== undefined && test.right > test.items)
        context.addIssue({
          code: 'custom',
          path: ['right'],
          message: `cannot exceed the ${test.items} items of the list`,
        })
      if ((test.state === 'current') !== (test.closing === undefined))
        context.addIssue({
          code: 'custom',
          path: ['closing'],
          message: 'a test that is not current says why, and only then',
        })
    }),
  )
export type SpeechTest = z.infer<typeof SpeechTest>

/** A speech test that holds a score. */
export type ScoreTest = SpeechTest & { items: number; right: number; speechLevel: DbSpl }
/** A speech test that holds a reception threshold. */
export type ReceptionTest = SpeechTest & { receptionThreshold: DbHl }

export const isReception = (test: SpeechTest): test is ReceptionTest => test.receptionThreshold !== undefined
export const isScore = (test: SpeechTest): test is ScoreTest => !isReception(test)
