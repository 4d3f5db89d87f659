import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex } from '@noble/hashes/utils.js'
import { strToU8, type Zippable, zipSync } from 'fflate'
import type { DocumentKind } from '../../board/records.ts'
import { type CaseRecords, readCaseRecords } from '../case-records.ts'
import { caseBundle } from '../fhir/write-bundle.ts'
import { recordCode, speechTestCode } from '../record-code.ts'
import { statisticsTables } from '../statistics-csv.ts'
import { type LogLine, writeLog } from './log-lines.ts'
import {
  type ArchiveManifest,
  type ArchivePerson,
  archiveFiles,
  archiveVersion,
  leftOut,
  pictureFile,
} from './manifest.ts'
import { replayLog } from './replay.ts'

/** What an archive is made from. */
export interface ArchiveSource {
  readonly caseId: string
  readonly label: string
  /** ISO 8601 instant of the writing */
  readonly at: string
  /** calendar day, where it is known */
  readonly operatedOn: string | undefined
  readonly people: readonly ArchivePerson[]
  readonly logs: Readonly<Record<DocumentKind, readonly LogLine[]>>
  /** bytes of the photographs, by the ids of their records */
  readonly pictures: ReadonlyMap<string, Uint8Array>
}

/**
 * Writes the archive of a case as a zip file. The same source gives the same bytes.
 * @throws RangeError when a log does not replay or a photograph is missing: the case would not be whole
 */
export function writeArchive(source: ArchiveSource): Uint8Array {
  const records = recordsOf(source.logs)
  const photographs = photographsOf(source, records)
  const files = new Map([...filesOf(source, records), ...photographs])
  const manifest: ArchiveManifest = {
    format: 'promontory-case',
    version: archiveVersion,
    caseId: source.caseId,
    label: source.label,
    writtenAt: source.at,
    files: [...files].map(([name, bytes]) => ({ name, bytes: bytes.length, sha256: bytesToHex(sha256(bytes)) })),
    codes: codesOf(records),
    leftOut: [...leftOut],
  }
  const zippable: Zippable = { [archiveFiles.manifest]: strToU8(pretty(manifest)) }
  // Pictures are packed already.
  for (const [name, bytes] of files) zippable[name] = photographs.has(name) ? [bytes, { level: 0 }] : bytes
  // The zip format counts years from 1980; a fixed day keeps equal cases equal.
  return zipSync(zippable, { level: 6, mtime: '1980-01-01T00:00:00' })
}

export function recordsOf(logs: ArchiveSource['logs']): CaseRecords {
  const [record, floor] = (['record', 'floor'] as const).map((kind) => {
    const replay = replayLog(kind, logs[kind])
    if (!replay.ok) throw new RangeError(`the log of ${kind} stops at line ${replay.line}: ${replay.problem}`)
    return replay.doc
  })
  if (record === undefined || floor === undefined) throw new TypeError('a case has two documents')
  return readCaseRecords(record, floor)
}

function filesOf(
  { caseId, at, operatedOn, people, logs }: ArchiveSource,
  records: CaseRecords,
): Map<string, Uint8Array> {
  const tables = statisticsTables(caseId, records, operatedOn)
  const texts: [string, string][] = [
    [archiveFiles.records, pretty(records)],
    [archiveFiles.people, pretty(people)],
    [archiveFiles.recordLog, writeLog(logs.record)],
    [archiveFiles.floorLog, writeLog(logs.floor)],
    // A case whose details are not entered yet has no patient to speak of in FHIR.
    ...(records.header.length === 0 ? [] : [[archiveFiles.fhir, pretty(caseBundle(records, at))] as [string, string]]),
    [archiveFiles.thresholds, tables.thresholds],
    [archiveFiles.speech, tables.speech],
    [archiveFiles.dictionary, tables.dictionary],
  ]
  return new Map(texts.map(([name, text]) => [name, strToU8(text)]))
}

function photographsOf({ pictures }: ArchiveSource, records: CaseRecords): Map<string, Uint8Array> {
  return new Map(
    records.pictures.map((picture) => {
      const bytes = pictures.get(picture.id)
      if (bytes === undefined) throw new RangeError(`the bytes of photograph ${picture.id} are missing`)
      return [pictureFile(picture), bytes]
    }),
  )
}

const pretty = (value: unknown): string => `${JSON.stringify(value, null, 1)}\n`

export const codesOf = ({ tests, speechTests }: CaseRecords): Record<string, string> =>
  Object.fromEntries([
    ...tests.map((test) => [test.id, recordCode(test)]),
    ...speechTests.map((test) => [test.id, speechTestCode(test)]),
  ])
