import type { Provenance, SourceStatus } from '../audiometry/provenance.ts'
import type { EvidenceSource, EvidenceStatus, SourceId } from '../devices/evidence-source.ts'

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
  status === 'approximate, from memory' || status === 'assumption' || reservation !== undefined
