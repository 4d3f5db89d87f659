import type { DeviceProfile } from '@/lib/devices/device-profile.ts'
import { type ProfileFault, readTeamProfile } from '@/lib/forecast/team-profile.ts'

export type ProfileReading =
  | { readonly kind: 'nothing' }
  /** `place` as the parser tells it */
  | { readonly kind: 'not-json'; readonly place: string }
  | { readonly kind: 'faults'; readonly faults: readonly ProfileFault[] }
  /** the same id and version are here already */
  | { readonly kind: 'taken'; readonly profile: DeviceProfile }
  | { readonly kind: 'profile'; readonly profile: DeviceProfile }

/** A profile from the text of a file, held against those that are here. */
export function readProfileText(text: string, known: readonly DeviceProfile[]): ProfileReading {
  if (text.trim() === '') return { kind: 'nothing' }
  const content = parsed(text)
  if (!content.ok) return { kind: 'not-json', place: content.place }
  const reading = readTeamProfile(content.value)
  if (!reading.ok) return { kind: 'faults', faults: reading.faults }
  const { profile } = reading
  const isTaken = known.some(({ id, version }) => id === profile.id && version === profile.version)
  return { kind: isTaken ? 'taken' : 'profile', profile }
}

type Parsed = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly place: string }

function parsed(text: string): Parsed {
  try {
    return { ok: true, value: JSON.parse(text) }
  } catch (error) {
    if (error instanceof SyntaxError) return { ok: false, place: error.message }
    throw error
  }
}
