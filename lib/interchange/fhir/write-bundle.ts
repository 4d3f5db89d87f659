import type { CaseHeader } from '../../board/records/case-header.ts'
import type { Plan } from '../../board/records/plan.ts'
import type { Visit } from '../../board/records/visit.ts'
import type { CaseRecords } from '../case-records.ts'
import { systems } from './codes.ts'
import type { AnyResource, Bundle } from './resources.ts'
import {
  earSite,
  type Links,
  observationOfAge,
  observationOfSpeechTest,
  observationOfTest,
  own,
  resourceId,
} from './write-observations.ts'

/** What of a case is said in FHIR. */
export type FhirCase = Pick<CaseRecords, 'header' | 'plan' | 'tests' | 'speechTests' | 'visits'>

/**
 * The case as a FHIR R4 Bundle (collection): Patient by pseudonym, Observations of all tests, Encounters of the visits,
 * the Procedure, and the Device as a class, without maker. What FHIR has no form for (forecasts, decisions, the log) is in
 * the archive of the whole case.
 * @param at when it is written, ISO 8601 instant
 * @throws RangeError when the case has no header, so that there is nobody to speak of
 */
export function caseBundle(records: FhirCase, at: string): Bundle {
  const [header] = records.header
  if (header === undefined) throw new RangeError('a case without a header has no patient')
  const [plan] = records.plan
  const visits = new Set(records.visits.map(({ id }) => id))
  const links: Links = {
    subject: addressOf('Patient', 'patient'),
    encounterOf: (visit) => (visits.has(visit) ? addressOf('Encounter', resourceId(visit)) : undefined),
  }
  const resources = [
    patient(header),
    ...deviceOf(plan, links),
    procedureOf(header, plan, links),
    ...records.visits.map((visit) => encounterOf(visit, links)),
    ...observationOfAge(header, links.subject),
    ...records.tests.map((test) => observationOfTest(test, links)),
    ...records.speechTests.map((test) => observationOfSpeechTest(test, links)),
  ]
  return {
    resourceType: 'Bundle',
    meta: { profile: [r4Bundle] },
    type: 'collection',
    timestamp: at,
    entry: resources.map((resource) => ({
      fullUrl: addressOf(resource.resourceType, String(resource.id)),
      resource,
    })),
  }
}

/** Says in the file itself which FHIR it is: nothing else in a Bundle does. */
export const r4Bundle = 'http://hl7.org/fhir/StructureDefinition/Bundle|4.0.1'

const addressOf = (type: string, id: string): string => `https://promontory.example/fhir/${type}/${id}`

/** No name, no date of birth, no address: the board knows none. */
const patient = ({ pseudonym, sex }: CaseHeader): AnyResource => ({
  resourceType: 'Patient',
  id: 'patient',
  identifier: [{ use: 'secondary', system: systems.pseudonym, value: pseudonym }],
  ...(sex === 'not-stated' ? {} : { gender: sex }),
})

function deviceOf(plan: Plan | undefined, { subject }: Links): AnyResource[] {
  if (plan?.deviceClass === undefined) return []
  return [
    {
      resourceType: 'Device',
      id: 'device',
      type: own(systems.deviceClass, plan.deviceClass),
      ...(plan.couplingSite === undefined
        ? {}
        : {
            property: [
              {
                type: own(systems.couplingSite, 'coupling-site'),
                valueCode: [own(systems.couplingSite, plan.couplingSite)],
              },
            ],
          }),
      patient: { reference: subject },
    },
  ]
}

const procedureStates = {
  planning: 'preparation',
  'in-theatre': 'in-progress',
  'follow-up': 'completed',
  closed: 'completed',
} as const satisfies Record<CaseHeader['phase'], string>

function procedureOf(header: CaseHeader, plan: Plan | undefined, { subject }: Links): AnyResource {
  const hasDevice = plan?.deviceClass !== undefined
  return {
    resourceType: 'Procedure',
    id: 'procedure',
    status: procedureStates[header.phase],
    code: own(systems.procedure, 'hearing-device-operation'),
    subject: { reference: subject },
    ...(header.operatedOn === undefined ? {} : { performedDateTime: header.operatedOn }),
    bodySite: [earSite(plan?.ear ?? header.ear)],
    ...(plan === undefined || plan.approach === '' ? {} : { note: [{ text: plan.approach }] }),
    ...(hasDevice ? { focalDevice: [{ manipulated: { reference: addressOf('Device', 'device') } }] } : {}),
  }
}

const encounterStates = {
  planned: 'planned',
  held: 'finished',
  missed: 'cancelled',
  'called-off': 'cancelled',
} as const satisfies Record<Visit['state'], string>

function encounterOf(visit: Visit, { subject }: Links): AnyResource {
  const day = visit.held?.on ?? visit.plannedOn
  return {
    resourceType: 'Encounter',
    id: resourceId(visit.id),
    identifier: [{ system: systems.record, value: visit.id }],
    status: encounterStates[visit.state],
    class: { system: systems.actCode, code: 'AMB', display: 'ambulatory' },
    type: [own(systems.occasion, visit.occasion)],
    subject: { reference: subject },
    ...(day === undefined ? {} : { period: { start: day } }),
  }
}
