import { z } from 'zod'
import { Ear } from '../../units/frequencies.ts'
import { DbSpl } from '../../units/levels.ts'
import { CalendarDay, LongText, ShortText, stampFields } from '../identity.ts'
import { Closing, TestCondition, TestState, Verification } from './hearing-test.ts'

/** A word-recognition score: so many items right of a list, at a level, in quiet or in noise. */
export const SpeechTest = z
  .strictObject({
    ...stampFields,
    ear: z.union([Ear, z.literal('both')]),
    condition: TestCondition,
    performedOn: CalendarDay,
    material: z.enum(['monosyllables', 'disyllables', 'phonemes', 'sentences', 'digits']),
    listName: ShortText,
    items: z.int().min(1).max(400),
    right: z.int().min(0).max(400),
    speechLevel: DbSpl,
    noiseLevel: DbSpl.optional(),
    note: LongText,
    state: TestState,
    verification: Verification.optional(),
    closing: Closing.optional(),
  })
  .superRefine((test, context) => {
    if (test.right > test.items)
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
  })
export type SpeechTest = z.infer<typeof SpeechTest>
