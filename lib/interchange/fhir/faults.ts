/** What can be wrong with a FHIR file as a whole. Nothing is imported while there is one. */
export type FhirFileFault =
  | { readonly code: 'too-long'; readonly characters: number; readonly most: number }
  | { readonly code: 'not-json' }
  | { readonly code: 'not-a-bundle'; readonly found: string }
  | { readonly code: 'other-version'; readonly version: string; readonly where: string }
  | { readonly code: 'too-many-entries'; readonly entries: number; readonly most: number }
  | { readonly code: 'no-patient' }
  | { readonly code: 'several-patients'; readonly patients: number }
  | { readonly code: 'wrong-patient'; readonly found: string; readonly expected: string }

/** What can be wrong with one resource. It is left out; the others can be imported. */
export type FhirItemFault =
  | { readonly code: 'invalid'; readonly path: string; readonly problem: string }
  | { readonly code: 'no-unit' }
  | { readonly code: 'wrong-unit'; readonly unit: string; readonly expected: string }
  | { readonly code: 'no-value' }
  | { readonly code: 'wrong-ear'; readonly said: string; readonly site: string }
  | { readonly code: 'no-ear' }
  | { readonly code: 'no-day' }
  | { readonly code: 'day-in-future'; readonly day: string }
  | { readonly code: 'before-operation'; readonly day: string; readonly operated: string }
  | { readonly code: 'other-patient'; readonly reference: string }
  | { readonly code: 'point-twice'; readonly point: string }

/** A fault and the resource that has it, such as `Observation/abc`; `entry` counts from 1. */
export interface PlacedFhirFault {
  readonly entry: number
  readonly resource: string
  readonly fault: FhirItemFault
}
