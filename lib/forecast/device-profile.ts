import type { CouplingSite } from '../devices/classes.ts'
import type { Coupling, DeviceProfile } from '../devices/device-profile.ts'
import type { EvidenceSource, SourceId } from '../devices/evidence-source.ts'

/** @throws RangeError when the profile has no such source, which its schema excludes */
export function sourceOf({ id, sources }: Pick<DeviceProfile, 'id' | 'sources'>, source: SourceId): EvidenceSource {
  const found = sources.find((candidate) => candidate.id === source)
  if (found === undefined) throw new RangeError(`profile ${id} has no source ${source}`)
  return found
}

export const couplingAt = (profile: DeviceProfile, site: CouplingSite): Coupling | undefined =>
  profile.couplings.find((coupling) => coupling.sites.includes(site))
