import * as z from 'zod/mini'

/**
 * How sure we are of a number that a forecast stands on.
 * - `confirmed`: read at the address in `readAt`;
 * - `approximate, from memory`: a working value nobody has held against a publication: weak evidence, shown as weak;
 * - `assumption`: chosen by this board because nothing is published;
 * - `from labelling`: the team's own, from the device's labelling, as the team wrote it down.
 */
export const EvidenceStatus = z.enum(['confirmed', 'approximate, from memory', 'assumption', 'from labelling'])
export type EvidenceStatus = z.infer<typeof EvidenceStatus>

export const SourceId = z
  .string()
  .check(z.regex(/^[a-z0-9][a-z0-9-]{0,59}$/, 'lower-case letters, digits and dashes, at most 60'))
export type SourceId = z.infer<typeof SourceId>

/** Where a number comes from. `reservation` names the part that is less sure than `status` says. */
export const EvidenceSource = z
  .strictObject({
    id: SourceId,
    citation: z.string().check(z.minLength(1), z.maxLength(600)),
    status: EvidenceStatus,
    readAt: z.optional(z.string().check(z.minLength(1), z.maxLength(300))),
    reservation: z.optional(z.string().check(z.minLength(1), z.maxLength(600))),
  })
  .check(
    z.refine((source) => (source.status === 'confirmed') === (source.readAt !== undefined), {
      path: ['readAt'],
      message: 'a confirmed source says where it was read, and only a confirmed one',
    }),
  )
export type EvidenceSource = z.infer<typeof EvidenceSource>
