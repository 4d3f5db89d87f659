import type { AnyResource } from './resources.ts'

/**
 * Elements that R4 does not have, or has in another form, by resource. A file says nowhere which FHIR it is, unless a
 * profile carries the version.
 * Source: the resource histories of HL7 FHIR, https://hl7.org/fhir/R4/diff.html and https://hl7.org/fhir/R5/diff.html
 * (names from memory, unconfirmed).
 */
const elsewhere: readonly {
  readonly resource: string
  readonly element: string
  readonly version: string
  readonly inForm?: (value: unknown) => boolean
}[] = [
  { resource: 'Bundle', element: 'issues', version: '5.0' },
  { resource: 'Observation', element: 'triggeredBy', version: '5.0' },
  { resource: 'Observation', element: 'bodyStructure', version: '5.0' },
  { resource: 'Observation', element: 'instantiatesCanonical', version: '5.0' },
  { resource: 'Encounter', element: 'actualPeriod', version: '5.0' },
  { resource: 'Encounter', element: 'class', version: '5.0', inForm: Array.isArray },
  { resource: 'Procedure', element: 'occurrenceDateTime', version: '5.0' },
  { resource: 'Procedure', element: 'occurrencePeriod', version: '5.0' },
  { resource: 'Device', element: 'name', version: '5.0', inForm: Array.isArray },
  { resource: 'Device', element: 'type', version: '5.0', inForm: Array.isArray },
  { resource: 'Observation', element: 'comment', version: '3.0' },
  { resource: 'Observation', element: 'context', version: '3.0' },
  { resource: 'Observation', element: 'related', version: '3.0' },
  { resource: 'Procedure', element: 'context', version: '3.0' },
  { resource: 'Observation', element: 'comments', version: '1.0' },
]

/** @returns the version that a resource shows and where it shows it; undefined where nothing speaks against R4 */
export function otherVersion(resource: AnyResource): { readonly version: string; readonly where: string } | undefined {
  const named = versionOfProfile(resource)
  if (named !== undefined && !named.startsWith('4.0')) return { version: named, where: 'meta.profile' }
  const { fhirVersion } = resource
  if (typeof fhirVersion === 'string' && !fhirVersion.startsWith('4.0'))
    return { version: fhirVersion.slice(0, 20), where: 'fhirVersion' }
  const found = elsewhere.find(
    ({ resource: type, element, inForm }) =>
      type === resource.resourceType && element in resource && (inForm === undefined || inForm(resource[element])),
  )
  return found && { version: found.version, where: `${found.resource}.${found.element}` }
}

/** Of the standard's own profiles: `.../StructureDefinition/Bundle|5.0.0` or `http://hl7.org/fhir/5.0/StructureDefinition/...` */
function versionOfProfile({ meta }: AnyResource): string | undefined {
  const profiles = (meta as { profile?: unknown } | undefined)?.profile
  if (!Array.isArray(profiles)) return undefined
  for (const profile of profiles) {
    const match = /^http:\/\/hl7\.org\/fhir\/(?:(\d\.\d)\/)?StructureDefinition\/\w+(?:\|(\d[\w.-]{0,19}))?$/.exec(
      String(profile),
    )
    const version = match?.[2] ?? match?.[1]
    if (version !== undefined) return version
  }
  return undefined
}
