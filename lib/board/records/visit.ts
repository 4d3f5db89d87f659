import * as z from 'zod/mini'
import { CalendarDay, LongText, Moment, ParticipantId, ShortText, stampFields } from '../identity.ts'

/** When a visit takes place, counted from the first fitting; `yearly` carries its year, from the second on. */
export const Occasion = z.enum([
  'first-fitting',
  '1-month',
  '3-months',
  '6-months',
  '12-months',
  'yearly',
  'unscheduled',
])
export type Occasion = z.infer<typeof Occasion>

export const VisitState = z.enum(['planned', 'held', 'missed', 'called-off'])
export type VisitState = z.infer<typeof VisitState>

/** What may go wrong with ear or device, from one list, so that a series can count it. */
export const ComplicationKind = z.enum([
  'infection',
  'wound-breakdown',
  'skin-reaction',
  'extrusion',
  'coupling-displaced',
  'device-failure',
  'inner-ear-loss',
  'vertigo',
  'tinnitus',
  'facial-weakness',
  'taste-disturbance',
  'eardrum-perforation',
  'cholesteatoma',
  'cerebrospinal-fluid-leak',
  'pain',
  'feedback',
  'other',
])
export type ComplicationKind = z.infer<typeof ComplicationKind>

export const Complication = z.strictObject({
  course: z.enum(['new', 'going-on', 'resolved']),
  words: ShortText,
})
export type Complication = z.infer<typeof Complication>

/** How the device is set and used, in general terms: never a maker's parameter. */
export const DeviceSettings = z.strictObject({
  change: z.enum(['as-before', 'fine-tuned', 'fitted-anew', 'switched-off']),
  hoursADay: z.optional(z.number().check(z.minimum(0), z.maximum(24))),
  words: ShortText,
})
export type DeviceSettings = z.infer<typeof DeviceSettings>

export const lastYear = 50

/**
 * A visit after the operation. Hearing and speech tests belong to it by their field `visit`; what it has to answer are
 * its items (`VisitItem`).
 */
export const Visit = z
  .strictObject({
    ...stampFields,
    occasion: Occasion,
    /** years after the first fitting, of a yearly visit alone */
    year: z.optional(z.int().check(z.minimum(2), z.maximum(lastYear))),
    plannedOn: z.optional(CalendarDay),
    state: VisitState,
    /** `on`: the day of the visit where the clinic is; `by` and `at`: who wrote that down, and when */
    held: z.optional(z.strictObject({ by: ParticipantId, at: Moment, on: CalendarDay })),
    settings: z.optional(DeviceSettings),
    findings: LongText,
    /** whether somebody asked and looked for complications: only then does an empty list mean that there were none */
    complicationsSought: z.optional(z.boolean()),
    complications: z.partialRecord(ComplicationKind, Complication),
    note: LongText,
  })
  .check(
    z.refine((visit) => (visit.state === 'held') === (visit.held !== undefined), {
      path: ['held'],
      message: 'a visit that was held has its day, and only such a visit',
    }),
    z.refine((visit) => visit.state !== 'planned' || visit.plannedOn !== undefined, {
      path: ['plannedOn'],
      message: 'a planned visit has a day',
    }),
    z.refine((visit) => (visit.occasion === 'yearly') === (visit.year !== undefined), {
      path: ['year'],
      message: 'a yearly visit says which year, and only such a visit',
    }),
  )
export type Visit = z.infer<typeof Visit>

/** A visit that took place. */
export type HeldVisit = Visit & { readonly held: NonNullable<Visit['held']> }
export const isHeld = (visit: Visit): visit is HeldVisit => visit.held !== undefined
