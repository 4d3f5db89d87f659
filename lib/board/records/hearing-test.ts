import * as z from 'zod/mini'
import { audiometricFrequenciesHz, Ear, type FrequencyHz } from '../../units/frequencies.ts'
import { DbHl } from '../../units/levels.ts'
import { CalendarDay, LongText, Moment, ParticipantId, RecordId, ShortText, stampFields } from '../identity.ts'

/** Earphones and vibrator without a device; loudspeaker without a device; loudspeaker with the device switched on. */
export const TestCondition = z.enum(['unaided', 'sound-field', 'aided'])
export type TestCondition = z.infer<typeof TestCondition>

export const TestState = z.enum(['current', 'superseded', 'entered-in-error'])
export type TestState = z.infer<typeof TestState>

/** The routes that a test of each condition holds. */
export const routesOf = {
  unaided: ['air', 'bone'],
  'sound-field': ['sound-field'],
  aided: ['aided'],
} as const satisfies Record<TestCondition, readonly string[]>

export const PointRoute = z.enum(['air', 'bone', 'sound-field', 'aided'])
export type PointRoute = z.infer<typeof PointRoute>

/** One measured point. A frequency that was not tested has no point. */
export const Point = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('heard'), level: DbHl }),
  z.strictObject({ kind: z.literal('no-response'), limit: DbHl }),
  z.strictObject({ kind: z.literal('could-not-test') }),
])
export type Point = z.infer<typeof Point>

const pointKeyPattern = new RegExp(
  `^(air|bone|sound-field|aided)\\.(masked|unmasked)\\.(${audiometricFrequenciesHz.join('|')})$`,
)

/** `route.masking.frequency`, for example `bone.masked.2000`: two people who set different points never collide. */
export const PointKey = z
  .string()
  .check(z.regex(pointKeyPattern, 'route.masking.frequency in Hz, e.g. bone.masked.2000'))
export type PointKey = z.infer<typeof PointKey>

export interface PointPlace {
  readonly route: PointRoute
  readonly masked: boolean
  readonly frequency: FrequencyHz
}

export const pointKey = ({ route, masked, frequency }: PointPlace): PointKey =>
  `${route}.${masked ? 'masked' : 'unmasked'}.${frequency}`

/** @throws RangeError when `key` is not a point key */
export function placeOfPoint(key: PointKey): PointPlace {
  const parts = pointKeyPattern.exec(key)
  if (parts === null) throw new RangeError(`point key is route.masking.frequency; got ${key}`)
  return { route: parts[1] as PointRoute, masked: parts[2] === 'masked', frequency: Number(parts[3]) as FrequencyHz }
}

export const Verification = z.strictObject({ by: ParticipantId, at: Moment })

/** Why a record is no longer current, by whom, and what stands in its place. */
export const Closing = z.strictObject({
  by: ParticipantId,
  at: Moment,
  reason: ShortText.check(z.minLength(1)),
  supersededBy: z.optional(RecordId),
})

export const HearingTest = z
  .strictObject({
    ...stampFields,
    ear: Ear,
    condition: TestCondition,
    performedOn: CalendarDay,
    /** the visit that it belongs to; absent: before the operation, or of no visit */
    visit: z.optional(RecordId),
    airTransducer: z.optional(z.enum(['supra-aural', 'circum-aural', 'insert'])),
    boneTransducer: z.optional(z.enum(['bone-mastoid', 'bone-forehead'])),
    device: z.optional(ShortText),
    origin: z.enum(['typed', 'imported']),
    note: LongText,
    state: TestState,
    verification: z.optional(Verification),
    closing: z.optional(Closing),
    points: z.record(PointKey, Point),
    /** air conduction at 1 kHz sought a second time, in dB HL */
    repeatAt1000: z.optional(DbHl),
  })
  .check(
    z.superRefine((test, context) => {
      const allowed: readonly string[] = routesOf[test.condition]
      for (const key of Object.keys(test.points)) {
        const { route } = placeOfPoint(key)
        if (!allowed.includes(route))
          context.addIssue({
            code: 'custom',
            path: ['points', key],
            message: `a test in condition "${test.condition}" holds ${allowed.join(' and ')} points only`,
          })
      }
      if (test.repeatAt1000 !== undefined && test.condition !== 'unaided')
        context.addIssue({
          code: 'custom',
          path: ['repeatAt1000'],
          message: 'the repeat by air conduction belongs to a test in condition "unaided"',
        })
      if ((test.state === 'current') !== (test.closing === undefined))
        context.addIssue({
          code: 'custom',
          path: ['closing'],
          message: 'a test that is not current says why, and only then',
        })
    }),
  )
export type HearingTest = z.infer<typeof HearingTest>
