import * as z from 'zod/mini'
import { CouplingSite, DeviceClass, sitesOf } from '../../devices/classes.ts'
import { EarChange } from '../../devices/ear-changes.ts'
import { Ear } from '../../units/frequencies.ts'
import { LongText, stampFields } from '../identity.ts'

export const OssicleState = z.enum(['mobile', 'stiff', 'fixed', 'eroded', 'missing', 'not-known'])
export type OssicleState = z.infer<typeof OssicleState>

/** Whether the outer ear takes what an ear canal takes: an ear mould, or sound by air. */
export const EarCanal = z.enum(['open', 'atresia', 'draining-ear', 'mould-not-tolerated'])
export type EarCanal = z.infer<typeof EarCanal>

/** What is found or assumed about an ear; twelve at once are more than any ear has. */
export const EarChanges = z.array(EarChange).check(z.maxLength(12))
export type EarChanges = z.infer<typeof EarChanges>

/** What is meant to be done. `author` and `at` are those of the last edit. */
export const Plan = z
  .strictObject({
    ...stampFields,
    ear: Ear,
    deviceClass: z.optional(DeviceClass),
    couplingSite: z.optional(CouplingSite),
    malleus: OssicleState,
    incus: OssicleState,
    stapes: OssicleState,
    /** absent: not written down */
    earCanal: z.optional(EarCanal),
    /** how this ear differs now from the ears that were measured; absent: nothing is known or assumed to differ */
    earChanges: z.optional(EarChanges),
    approach: LongText,
    aim: LongText,
  })
  .check(
    z.refine(
      (plan) =>
        plan.couplingSite === undefined ||
        (plan.deviceClass !== undefined && sitesOf[plan.deviceClass].includes(plan.couplingSite)),
      { path: ['couplingSite'], message: 'this device class does not couple there' },
    ),
  )
export type Plan = z.infer<typeof Plan>
