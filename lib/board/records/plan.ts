import { z } from 'zod'
import { CouplingSite, DeviceClass, sitesOf } from '../../devices/classes.ts'
import { Ear } from '../../units/frequencies.ts'
import { LongText, stampFields } from '../identity.ts'

export const OssicleState = z.enum(['mobile', 'stiff', 'fixed', 'eroded', 'missing', 'not-known'])
export type OssicleState = z.infer<typeof OssicleState>

/** What is meant to be done. `author` and `at` are those of the last edit. */
export const Plan = z
  .strictObject({
    ...stampFields,
    ear: Ear,
    deviceClass: DeviceClass.optional(),
    couplingSite: CouplingSite.optional(),
    malleus: OssicleState,
    incus: OssicleState,
    stapes: OssicleState,
    approach: LongText,
    aim: LongText,
  })
  .refine(
    (plan) =>
      plan.couplingSite === undefined ||
      (plan.deviceClass !== undefined && sitesOf[plan.deviceClass].includes(plan.couplingSite)),
    { path: ['couplingSite'], message: 'this device class does not couple there' },
  )
export type Plan = z.infer<typeof Plan>
