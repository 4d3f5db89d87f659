import * as z from 'zod/mini'

/** Device classes, never makers or products. The words that plan, forecast and series share. */
export const DeviceClass = z.enum([
  'active-middle-ear-implant',
  'active-transcutaneous-bone-conduction',
  'passive-transcutaneous-bone-conduction',
  'percutaneous-bone-anchored',
])
export type DeviceClass = z.infer<typeof DeviceClass>

/** Where the actuator drives. `skull` for every bone-conduction class. */
export const CouplingSite = z.enum([
  'incus-long-process',
  'incus-body',
  'stapes-head',
  'oval-window',
  'round-window',
  'skull',
])
export type CouplingSite = z.infer<typeof CouplingSite>

export const sitesOf: Record<DeviceClass, readonly CouplingSite[]> = {
  'active-middle-ear-implant': ['incus-long-process', 'incus-body', 'stapes-head', 'oval-window', 'round-window'],
  'active-transcutaneous-bone-conduction': ['skull'],
  'passive-transcutaneous-bone-conduction': ['skull'],
  'percutaneous-bone-anchored': ['skull'],
}

/** A device class at one of its coupling sites. */
export const DeviceOption = z.strictObject({ deviceClass: DeviceClass, couplingSite: CouplingSite }).check(
  z.refine((option) => sitesOf[option.deviceClass].includes(option.couplingSite), {
    path: ['couplingSite'],
    message: 'this device class does not couple there',
  }),
)
export type DeviceOption = z.infer<typeof DeviceOption>
