import type { ErasureReceipt } from '@/lib/interchange/api.ts'
import type { FhirFileFault, FhirItemFault } from '@/lib/interchange/fhir/faults.ts'
import type { Standing } from '@/lib/interchange/fhir/import-plan.ts'

const mb = (bytes: number): string => `${Math.ceil(bytes / 1024 / 1024)} MB`

const fileFaults: { readonly [C in FhirFileFault['code']]: (fault: Extract<FhirFileFault, { code: C }>) => string } = {
  'too-long': ({ most }) =>
    `The file is longer than ${most / 1_000_000} million characters. Send one patient at a time.`,
  'not-json': () => 'This is no JSON, or it is cut short. Ask for the file again, as FHIR R4 in JSON.',
  'not-a-bundle': ({ found }) => `This is ${found}, not a FHIR Bundle. Ask for a Bundle with Patient and Observations.`,
  'other-version': ({ version, where }) =>
    `This is FHIR ${version} (${where}); the board reads R4, 4.0.1. Ask for the file in R4.`,
  'too-many-entries': ({ entries, most }) =>
    `The file has ${entries} entries, more than ${most}. Send one patient at a time.`,
  'no-patient': () =>
    'The file names no patient, so whose tests these are cannot be known. Ask for it with its Patient.',
  'several-patients': ({ patients }) => `The file holds ${patients} patients. Send one patient at a time.`,
  'wrong-patient': ({ found, expected }) =>
    `These are tests of ${found}; this case is ${expected}. Open the case of ${found}, or check the file.`,
}

const itemFaults: { readonly [C in FhirItemFault['code']]: (fault: Extract<FhirItemFault, { code: C }>) => string } = {
  invalid: ({ path, problem }) => `${path}: ${problem}`,
  'no-unit': () => 'a level without its unit; dB HL is needed',
  'wrong-unit': ({ unit, expected }) => `a level in ${unit}; ${expected} is needed`,
  'no-value': () => 'no level, and no reason why there is none',
  'wrong-ear': ({ said, site }) => `the code says the ${said} ear, the body site the ${site} one`,
  'no-ear': () => 'it does not say which ear',
  'no-day': () => 'the day of the test is missing or incomplete',
  'day-in-future': ({ day }) => `${day} has not come yet`,
  'before-operation': ({ day, operated }) => `a test of a visit on ${day}, before the operation on ${operated}`,
  'other-patient': ({ reference }) => `it belongs to ${reference}, not to the patient of the file`,
  'point-twice': ({ point }) => `${point} stands there twice`,
}

/** A case out of the board and in again, and erased. */
export const exchange = {
  title: 'Export and import',
  out: 'Take out',
  outs: {
    archive: 'The whole case',
    fhir: 'FHIR R4',
    statistics: 'Tables for statistics',
  },
  outHints: {
    archive:
      'One file with all records, their authors and times, the log, FHIR and tables. Another installation can take it in.',
    fhir: 'Tests, operation, visits and device class as a Bundle, for other clinical systems.',
    statistics: 'CSV: one row for each visit, ear and frequency, speech tests, and a dictionary of the columns.',
  },
  outCaution: 'Who has the file has the case. Ballots, what was withdrawn, and who asked without a name are not in it.',
  in: 'Take tests in from FHIR',
  choose: 'Bundle of FHIR R4, JSON',
  chooseHint: 'Nothing is entered before you have seen it.',
  fileFault: (fault: FhirFileFault): string => (fileFaults[fault.code] as (fault: FhirFileFault) => string)(fault),
  itemFault: (fault: FhirItemFault): string => (itemFaults[fault.code] as (fault: FhirItemFault) => string)(fault),
  faults: (count: number) => (count === 1 ? '1 entry is left out:' : `${count} entries are left out:`),
  faultAt: (entry: number, resource: string, problem: string) => `Entry ${entry}, ${resource}: ${problem}`,
  moreFaults: (count: number) => `and ${count} more`,
  passedOver: (list: string) => `Not read, since the board has no place for it: ${list}.`,
  operationDiffers: (there: string, here: string) =>
    `The file has the operation as ${there}, the board as ${here}. Nothing is changed; compare the two.`,
  unknownPatient:
    'The file comes from another system and does not know the pseudonym. I have checked that this is the patient.',
  found: 'What would be entered',
  standing: {
    new: 'new',
    same: 'here already',
    differs: 'here with other numbers; not entered, compare the two',
    'twice-in-file': 'twice in the file; entered once',
    'does-not-count': 'entered in error there; not entered',
  } satisfies Record<Standing, string>,
  superseded: 'superseded there',
  tones: (count: number) => (count === 1 ? '1 threshold' : `${count} thresholds`),
  nothingNew: 'There is nothing new in this file.',
  enter: (count: number) => (count === 1 ? 'Enter 1 test' : `Enter ${count} tests`),
  entered: (count: number) => (count === 1 ? '1 test entered.' : `${count} tests entered.`),
  reason: 'superseded by an import from FHIR',
  tooLarge: (bytes: number, most: number) =>
    `The file has ${mb(bytes)}; at most ${mb(most)} are taken. Nothing was sent.`,

  takeIn: 'Take a case in',
  takeInWhat:
    'An archive that another installation wrote. It is checked and shown first; a case that is here is never changed.',
  archiveFile: 'Archive of a case (zip)',
  checking: 'Checking …',
  shown: (label: string, at: string, people: number) =>
    `${label}, written ${at}, by ${people === 1 ? '1 person' : `${people} people`}.`,
  standings: {
    new: 'This case is not here yet.',
    same: 'This case is here already, record for record. There is nothing to take in.',
    differs:
      'This case is here and has gone on differently. It stays as it is; the archive can stand beside it as a copy.',
    taken: 'A case of this id is here, where you were not invited. The archive can stand beside it as a copy.',
    erased: (at: string) => `This case was erased here on ${at}. The archive can come back as a copy alone.`,
  },
  kind: 'Records',
  counts: {
    inArchive: 'in the archive',
    onlyInArchive: 'new',
    same: 'the same',
    differs: 'different',
    onlyHere: 'only here',
  },
  leftOut: (things: readonly string[]) => `Never in an archive: ${things.join(', ')}.`,
  takeInNow: 'Take it in',
  takeInCopy: 'Take in as a copy',
  takenIn: (label: string) => `${label} is here.`,

  erase: 'Erase',
  eraseCase: (label: string) => `Erase ${label}`,
  eraseWhat:
    'The case goes for good: records, log, questions, votes, what was withdrawn, and invitations to it. Browsers that kept a copy drop it when they next connect. What somebody exported, printed or photographed stays outside. A receipt without anything of the patient is kept.',
  eraseFirst: 'Take the whole case out first, if it has to be kept anywhere.',
  eraseTyped: (label: string) => `Type ${label} to erase it`,
  eraseMismatch: (label: string) => `That is not ${label}. Nothing was erased.`,
  eraseNow: 'Erase for good',
  erasing: 'Erasing …',
  erased: 'Erased. This is the receipt:',
  receipts: 'Receipts of erased cases',
  receipt: ({ id, caseId, by }: ErasureReceipt, at: string) =>
    `Receipt ${id}: case ${caseId}, erased ${at} by ${by?.name ?? 'somebody who is gone'}.`,
  receiptCounts: ({ counts }: ErasureReceipt) =>
    `${counts.updates} edits, ${counts.states} states, ${counts.marks} marks, ${counts.ballots} ballots, ${counts.withdrawals} withdrawn, ${counts.unnamedAuthors} askers without a name, ${counts.pictures} photographs, ${counts.invitations} invitations, ${counts.grants} grants.`,
} as const
