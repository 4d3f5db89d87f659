import * as z from 'zod/mini'
import { ActuatorSite } from './drives.ts'

/** `malleus-and-incus`: heads grown together in the attic. */
export const Ligament = z.enum(['malleus', 'incus', 'malleus-and-incus', 'annular'])
export type Ligament = z.infer<typeof Ligament>

export const Joint = z.enum(['malleus-incus', 'incus-stapes'])
export type Joint = z.infer<typeof Joint>

/**
 * One thing that is different in an ear, or one assumption about it. A list of them describes a scenario; they act
 * together, and stiffness added twice to one ligament adds up.
 * - `ligament-stiffened`: `times` its normal stiffness, as a lower or higher fixation. Malleus: 3 to 10 stiff ligament or
 *   fibrous tissue, about 100 a bony bar, about 1000 extensive new bone.
 * - `ligament-fixed`: nothing gives way any more.
 * - `incus-bridge`: a bridge from the attic wall to the body of the incus, N/m.
 * - `joint-slack`: stiffness and loss of the joint times `factor`; 0.5 to 0.03 is the range of interest.
 * - `eardrum-absent`: for sound only the acoustic route is left, with the one floor of the model; real ears without an
 *   eardrum lose less, because more sound reaches the windows.
 * - `mass-added`: a prosthesis, clip or actuator resting on a site, mg.
 * - `contact-loss`: what a poor contact takes from an actuator at all frequencies alike, dB, with its own uncertainty.
 * - `incus-axis-compliant` and `third-window` are exploratory: assumptions about the ear, healthy or not, whose size is
 *   not known. They give a direction, not a number.
 */
export const EarChange = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('ligament-stiffened'),
    ligament: Ligament,
    times: z.number().check(z.minimum(1), z.maximum(10_000)),
  }),
  z.strictObject({ kind: z.literal('ligament-fixed'), ligament: Ligament }),
  z.strictObject({ kind: z.literal('incus-bridge'), stiffnessNPerM: z.number().check(z.minimum(0), z.maximum(1e8)) }),
  z.strictObject({
    kind: z.literal('joint-slack'),
    joint: Joint,
    factor: z.number().check(z.minimum(0.001), z.maximum(1)),
  }),
  z.strictObject({ kind: z.literal('joint-ankylosed'), joint: Joint }),
  z.strictObject({ kind: z.literal('incus-stapes-apart') }),
  z.strictObject({ kind: z.literal('incus-missing') }),
  z.strictObject({ kind: z.literal('stapes-superstructure-missing') }),
  z.strictObject({ kind: z.literal('cavity-open') }),
  z.strictObject({ kind: z.literal('eardrum-absent') }),
  z.strictObject({
    kind: z.literal('mass-added'),
    site: ActuatorSite,
    massMg: z.number().check(z.minimum(0), z.maximum(200)),
  }),
  z.strictObject({
    kind: z.literal('contact-loss'),
    lossDb: z.number().check(z.minimum(0), z.maximum(40)),
    sdDb: z.number().check(z.minimum(0), z.maximum(20)),
  }),
  z.strictObject({
    kind: z.literal('incus-axis-compliant'),
    stiffnessNPerM: z.number().check(z.minimum(1e3), z.maximum(1e9)),
  }),
  z.strictObject({
    kind: z.literal('third-window'),
    complianceM5PerN: z.number().check(z.minimum(1e-18), z.maximum(1e-13)),
  }),
])
export type EarChange = z.infer<typeof EarChange>

/** The two kinds that are assumptions of unknown size, not findings. */
export const exploratoryKinds: readonly EarChange['kind'][] = ['incus-axis-compliant', 'third-window']
