import * as z from 'zod/mini'

/**
 * As much of HL7 FHIR R4 (4.0.1) as is read and written here. Elements that are not named are allowed and passed over, so
 * that bundles of other systems can be read.
 */

export const Coding = z.looseObject({
  system: z.optional(z.string()),
  code: z.optional(z.string()),
  display: z.optional(z.string()),
})
export type Coding = z.infer<typeof Coding>

export const CodeableConcept = z.looseObject({ coding: z.optional(z.array(Coding)), text: z.optional(z.string()) })
export type CodeableConcept = z.infer<typeof CodeableConcept>

export const Identifier = z.looseObject({ system: z.optional(z.string()), value: z.optional(z.string()) })
export const Reference = z.looseObject({ reference: z.optional(z.string()), display: z.optional(z.string()) })

export const Quantity = z.looseObject({
  value: z.optional(z.number()),
  comparator: z.optional(z.enum(['<', '<=', '>=', '>'])),
  unit: z.optional(z.string()),
  system: z.optional(z.string()),
  code: z.optional(z.string()),
})
export type Quantity = z.infer<typeof Quantity>

const Meta = z.looseObject({ profile: z.optional(z.array(z.string())) })
const Extension = z.looseObject({ url: z.string() })
const resource = { id: z.optional(z.string()), meta: z.optional(Meta), identifier: z.optional(z.array(Identifier)) }

const value = {
  valueQuantity: z.optional(Quantity),
  valueCodeableConcept: z.optional(CodeableConcept),
  valueString: z.optional(z.string()),
  valueInteger: z.optional(z.int()),
  dataAbsentReason: z.optional(CodeableConcept),
}

export const Component = z.looseObject({ code: CodeableConcept, ...value })
export type Component = z.infer<typeof Component>

export const Observation = z.looseObject({
  ...resource,
  resourceType: z.literal('Observation'),
  status: z.string(),
  code: CodeableConcept,
  subject: z.optional(Reference),
  encounter: z.optional(Reference),
  effectiveDateTime: z.optional(z.string()),
  bodySite: z.optional(CodeableConcept),
  method: z.optional(CodeableConcept),
  note: z.optional(z.array(z.looseObject({ text: z.string() }))),
  extension: z.optional(z.array(Extension)),
  component: z.optional(z.array(Component)),
  ...value,
})
export type Observation = z.infer<typeof Observation>

export const Patient = z.looseObject({
  ...resource,
  resourceType: z.literal('Patient'),
  gender: z.optional(z.string()),
})
export type Patient = z.infer<typeof Patient>

export const Encounter = z.looseObject({
  ...resource,
  resourceType: z.literal('Encounter'),
  period: z.optional(z.looseObject({ start: z.optional(z.string()) })),
})
export type Encounter = z.infer<typeof Encounter>

export const Procedure = z.looseObject({
  ...resource,
  resourceType: z.literal('Procedure'),
  bodySite: z.optional(z.array(CodeableConcept)),
  performedDateTime: z.optional(z.string()),
})
export type Procedure = z.infer<typeof Procedure>

export const AnyResource = z.looseObject({ resourceType: z.string() })
export type AnyResource = z.infer<typeof AnyResource>

export const Entry = z.looseObject({ fullUrl: z.optional(z.string()), resource: z.optional(AnyResource) })
export type Entry = z.infer<typeof Entry>

export const Bundle = z.looseObject({
  resourceType: z.literal('Bundle'),
  type: z.string(),
  meta: z.optional(Meta),
  entry: z.optional(z.array(Entry)),
})
export type Bundle = z.infer<typeof Bundle>

/** The code of a concept in one system. */
export const codeIn = (concept: CodeableConcept | undefined, system: string): string | undefined =>
  concept?.coding?.find((coding) => coding.system === system)?.code
