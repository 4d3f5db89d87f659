import type { Ear, FrequencyHz } from '../../units/frequencies.ts'

/**
 * Names of our own for what no published code system has. They are names and no addresses: `.example` is reserved and
 * never resolves (RFC 2606).
 */
const base = 'https://promontory.example/fhir'
export const systems = {
  loinc: 'http://loinc.org',
  ucum: 'http://unitsofmeasure.org',
  actCode: 'http://terminology.hl7.org/CodeSystem/v3-ActCode',
  observationCategory: 'http://terminology.hl7.org/CodeSystem/observation-category',
  dataAbsentReason: 'http://terminology.hl7.org/CodeSystem/data-absent-reason',
  /** tests and what belongs to them: `audiogram`, `air.masked.2000`, `word-score` */
  test: `${base}/CodeSystem/hearing-test`,
  ear: `${base}/CodeSystem/ear`,
  condition: `${base}/CodeSystem/test-condition`,
  transducer: `${base}/CodeSystem/transducer`,
  material: `${base}/CodeSystem/speech-material`,
  deviceClass: `${base}/CodeSystem/device-class`,
  couplingSite: `${base}/CodeSystem/coupling-site`,
  occasion: `${base}/CodeSystem/visit-occasion`,
  procedure: `${base}/CodeSystem/procedure`,
  /** identifiers: the pseudonym of a patient, the id of a record */
  pseudonym: `${base}/pseudonym`,
  record: `${base}/record`,
} as const

/**
 * What R4 has no place for: that a test is superseded, which no status of an Observation says (final, amended and
 * entered-in-error each say something else).
 */
export const supersededExtension = `${base}/StructureDefinition/superseded`

/** LOINC panel 89015-2, "Pure tone threshold audiometry panel". */
export const audiometryPanel = { code: '89015-2', display: 'Pure tone threshold audiometry panel' } as const

/** LOINC 30525-0, "Age". */
export const age = { code: '30525-0', display: 'Age' } as const

/**
 * LOINC codes of the panel's members, "Hearing threshold Ear - <ear> --<frequency> Hz": thresholds by air conduction.
 * There are none for 125 Hz, for 9 kHz and above, for bone conduction, for the sound field and with a device.
 * Source: value set "Pure tone threshold audiometry panel" of the HL7 implementation guide for speech, language,
 * swallowing, cognitive communication and hearing (PACIO SPLASCH), read in its public repository.
 */
export const thresholdCodes: Readonly<Record<Ear, Readonly<Partial<Record<FrequencyHz, string>>>>> = {
  left: {
    250: '91375-6',
    500: '89024-4',
    750: '91379-8',
    1000: '89016-0',
    1500: '91373-1',
    2000: '89018-6',
    3000: '89020-2',
    4000: '89022-8',
    5000: '91377-2',
    6000: '89026-9',
    8000: '89028-5',
  },
  right: {
    250: '91374-9',
    500: '89025-1',
    750: '91378-0',
    1000: '89017-8',
    1500: '91372-3',
    2000: '89019-4',
    3000: '89021-0',
    4000: '89023-6',
    5000: '91376-4',
    6000: '89027-7',
    8000: '89029-3',
  },
}

export const thresholdDisplay = (ear: Ear, frequency: FrequencyHz): string =>
  `Hearing threshold Ear - ${ear} --${frequency} Hz`

/** Ear and frequency of a LOINC code; undefined for any other code. */
export function thresholdOfCode(code: string): { readonly ear: Ear; readonly frequency: FrequencyHz } | undefined {
  for (const ear of ['right', 'left'] as const)
    for (const [frequency, known] of Object.entries(thresholdCodes[ear]))
      if (known === code) return { ear, frequency: Number(frequency) as FrequencyHz }
  return undefined
}

/** Units as they are written beside UCUM code `dB`, which does not say what the decibels are relative to. */
export const levelUnits = { hearingLevel: 'dB HL', soundPressure: 'dB SPL' } as const
