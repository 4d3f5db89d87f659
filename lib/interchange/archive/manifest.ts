import * as z from 'zod/mini'
import { CaseId, Moment, ParticipantId, RecordId } from '../../board/identity.ts'
import { type Picture, pictureLimits } from '../../board/records/picture.ts'
import { Role } from '../../board/roles.ts'

/**
 * The archive of a whole case: a zip file with the records as JSON, the log of both documents, the people who wrote, the
 * case as FHIR R4, the tables for statistics, and the photographs. The log is what an import is made from, with the
 * photographs that it names; all else is for people and for other programs, and has to agree with it.
 */

/** A change of the layout that older programs cannot read raises it. */
export const archiveVersion = 1

const mib = 1024 * 1024
/** All photographs that a case may have. */
const photographBytes = pictureLimits.ofCase * pictureLimits.bytes

/**
 * Bounds of an archive, so that a small file cannot fill the memory. A meeting of eight hours with a thousand edits an hour
 * and the largest records lies far below.
 */
export const archiveLimits = {
  /** of the zip file */
  bytes: 32 * mib + photographBytes,
  /** of one file in it, unpacked */
  fileBytes: 96 * mib,
  /** of all files in it, unpacked */
  totalBytes: 192 * mib + photographBytes,
  files: 200,
  /** unpacked bytes for each packed one, of files larger than `ratioFromBytes` */
  ratio: 100,
  ratioFromBytes: mib,
  updates: 200_000,
} as const

export const archiveFiles = {
  manifest: 'manifest.json',
  records: 'records.json',
  people: 'people.json',
  recordLog: 'log/record.jsonl',
  floorLog: 'log/floor.jsonl',
  fhir: 'fhir/bundle.json',
  thresholds: 'statistics/thresholds.csv',
  speech: 'statistics/speech.csv',
  dictionary: 'statistics/dictionary.csv',
} as const

/** Where the bytes of a photograph lie: named by what they are, so that equal ones lie there once. */
export const pictureFile = ({ sha256, mediaType }: Pick<Picture, 'sha256' | 'mediaType'>): string =>
  `pictures/${sha256}.${mediaType === 'image/png' ? 'png' : 'jpg'}`

/** Names that a file of an archive may have: folders and names of letters, digits, dots and dashes, never upwards. */
export const fileNamePattern = /^(?:[A-Za-z0-9][A-Za-z0-9._-]{0,99}\/){0,4}[A-Za-z0-9][A-Za-z0-9._-]{0,99}$/

const FileName = z.string().check(z.regex(fileNamePattern), z.maxLength(300))
const Sha256 = z.string().check(z.regex(/^[0-9a-f]{64}$/))

export const ArchiveManifest = z.strictObject({
  format: z.literal('promontory-case'),
  version: z.int().check(z.minimum(1)),
  caseId: CaseId,
  label: z.string().check(z.maxLength(300)),
  writtenAt: Moment,
  files: z
    .array(z.strictObject({ name: FileName, bytes: z.int().check(z.minimum(0)), sha256: Sha256 }))
    .check(z.maxLength(archiveLimits.files)),
  /** record codes of all tests, by the id of the record: equal on the board that wrote it and on the one that reads it */
  codes: z.record(RecordId, z.string()),
  /** what a case has and an archive never holds */
  leftOut: z.array(z.string()),
})
export type ArchiveManifest = z.infer<typeof ArchiveManifest>

/** Ballots are secret, whose a question without a name is, and what was withdrawn is the owner's. */
export const leftOut = ['ballots', 'withdrawals', 'askers of questions without a name'] as const

export const ArchivePerson = z.strictObject({
  id: ParticipantId,
  name: z.string().check(z.maxLength(200)),
  affiliation: z.string().check(z.maxLength(200)),
  role: Role,
})
export type ArchivePerson = z.infer<typeof ArchivePerson>
export const ArchivePeople = z.array(ArchivePerson).check(z.maxLength(5000))
