import { z } from 'zod'
import type { Provenance, SourceStatus } from '../audiometry/provenance.ts'

/**
 * How sure we are of a number that a forecast stands on.
 * - `confirmed`: read at the address in `readAt`;
 * - `approximate, from memory`: a working value nobody has held against a publication: weak evidence, shown as weak;
 * - `assumption`: chosen by this board because nothing is published.
 */
export const EvidenceStatus = z.enum(['confirmed', 'approximate, from memory', 'assumption'])
export type EvidenceStatus = z.infer<typeof EvidenceStatus>

export const SourceId = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,59}$/, 'lower-case letters, digits and dashes, at most 60')
export type SourceId = z.infer<typeof SourceId>

/** Where a number comes from. `reservation` names the part that is less sure than `status` says. */
export const EvidenceSource = z
  .strictObject({
    id: SourceId,
    citation: z.string().min(1).max(600),
    status: EvidenceStatus,
    readAt: z.string().min(1).max(300).optional(),
    reservation: z.string().min(1).max(600).optional(),
  })
  .refine((source) => (source.status === 'confirmed') === (source.readAt !== undefined), {
    path: ['readAt'],
    message: 'a confirmed source says where it was read, and only a confirmed one',
  })
export type EvidenceSource = z.infer<typeof EvidenceSource>

const statusFrom: Record<SourceStatus, EvidenceStatus> = {
  confirmed: 'confirmed',
  'from memory, unconfirmed': 'approximate, from memory',
  'common practice, no source': 'assumption',
}

/** The provenance of an audiometric rule or table as a source of a forecast. */
export function evidenceFrom(id: SourceId, { source, status, reservation }: Provenance): EvidenceSource {
  return { id, citation: source, status: statusFrom[status], ...(reservation === undefined ? {} : { reservation }) }
}

export const isWeak = ({ status, reservation }: EvidenceSource): boolean =>
  status !== 'confirmed' || reservation !== undefined
