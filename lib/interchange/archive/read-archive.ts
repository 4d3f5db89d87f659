import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex } from '@noble/hashes/utils.js'
import { strFromU8, type UnzipFileInfo, unzipSync } from 'fflate'
import type * as Y from 'yjs'
import type { Picture } from '../../board/records/picture.ts'
import type { DocumentKind } from '../../board/records.ts'
import { type CanonicalValue, canonicalJson } from '../canonical-json.ts'
import { type CaseRecords, readCaseRecords } from '../case-records.ts'
import { cleanPicture } from '../pictures/clean-picture.ts'
import { readLog } from './log-lines.ts'
import {
  ArchiveManifest,
  ArchivePeople,
  type ArchivePerson,
  archiveFiles,
  archiveLimits,
  archiveVersion,
  fileNamePattern,
  pictureFile,
} from './manifest.ts'
import { type ReplayedLine, replayLog } from './replay.ts'
import { codesOf } from './write-archive.ts'

export type ArchiveFault =
  | { readonly code: 'archive-too-large'; readonly bytes: number; readonly most: number }
  | { readonly code: 'not-an-archive' }
  | { readonly code: 'too-many-files'; readonly most: number }
  | { readonly code: 'bad-file-name'; readonly name: string }
  | { readonly code: 'file-twice'; readonly name: string }
  /** a small file that would unpack to very much */
  | { readonly code: 'unpacks-too-large'; readonly name: string }
  | { readonly code: 'no-manifest' }
  | { readonly code: 'newer-version'; readonly version: number; readonly known: number }
  | { readonly code: 'missing-file'; readonly name: string }
  | { readonly code: 'unlisted-file'; readonly name: string }
  | { readonly code: 'damaged-file'; readonly name: string }
  | { readonly code: 'bad-log'; readonly name: string; readonly line: number; readonly problem: string }
  /** the bytes of a photograph are not those that its record names, or are no clean picture */
  | { readonly code: 'bad-picture'; readonly name: string }
  /** the records beside the log say something else than the log */
  | { readonly code: 'records-differ' }

export interface Archive {
  readonly manifest: ArchiveManifest
  readonly people: readonly ArchivePerson[]
  readonly records: CaseRecords
  readonly documents: Readonly<Record<DocumentKind, { readonly doc: Y.Doc; readonly lines: readonly ReplayedLine[] }>>
  /** bytes of the photographs, by the ids of their records */
  readonly pictures: ReadonlyMap<string, Uint8Array>
}

export type ArchiveReading =
  | { readonly ok: true; readonly archive: Archive }
  | { readonly ok: false; readonly fault: ArchiveFault }

class Fault extends Error {
  readonly fault: ArchiveFault
  constructor(fault: ArchiveFault) {
    super(fault.code)
    this.fault = fault
  }
}

/**
 * Reads and checks the archive of a case: bounds before anything is unpacked, then names, checksums, the log from its
 * beginning, and that records and record codes are those of the log. Nothing of a faulty archive is taken.
 */
export function readArchive(bytes: Uint8Array): ArchiveReading {
  try {
    return { ok: true, archive: readFiles(unpacked(bytes)) }
  } catch (error) {
    if (error instanceof Fault) return { ok: false, fault: error.fault }
    throw error
  }
}

type Files = ReadonlyMap<string, Uint8Array>

/** The directory of the zip says what each file would unpack to; the unpacker never goes beyond what it says. */
function unpacked(bytes: Uint8Array): Files {
  if (bytes.length > archiveLimits.bytes)
    throw new Fault({ code: 'archive-too-large', bytes: bytes.length, most: archiveLimits.bytes })
  const seen = new Set<string>()
  let total = 0
  const admit = ({ name, size, originalSize }: UnzipFileInfo): boolean => {
    if (!fileNamePattern.test(name)) throw new Fault({ code: 'bad-file-name', name: name.slice(0, 100) })
    if (seen.has(name)) throw new Fault({ code: 'file-twice', name })
    seen.add(name)
    if (seen.size > archiveLimits.files) throw new Fault({ code: 'too-many-files', most: archiveLimits.files })
    total += originalSize
    const isDense = originalSize > archiveLimits.ratioFromBytes && originalSize > size * archiveLimits.ratio
    if (isDense || originalSize > archiveLimits.fileBytes || total > archiveLimits.totalBytes)
      throw new Fault({ code: 'unpacks-too-large', name })
    return true
  }
  try {
    return new Map(Object.entries(unzipSync(bytes, { filter: admit })))
  } catch (error) {
    if (error instanceof Fault) throw error
    throw new Fault({ code: 'not-an-archive' })
  }
}

function readFiles(files: Files): Archive {
  const manifest = readManifest(files)
  for (const { name, bytes, sha256: expected } of manifest.files) {
    const content = files.get(name)
    if (content === undefined) throw new Fault({ code: 'missing-file', name })
    if (content.length !== bytes || bytesToHex(sha256(content)) !== expected)
      throw new Fault({ code: 'damaged-file', name })
  }
  const listed = new Set([archiveFiles.manifest, ...manifest.files.map(({ name }) => name)])
  for (const name of files.keys()) if (!listed.has(name)) throw new Fault({ code: 'unlisted-file', name })
  const documents = {
    record: readDocument(files, 'record', archiveFiles.recordLog),
    floor: readDocument(files, 'floor', archiveFiles.floorLog),
  }
  const records = readCaseRecords(documents.record.doc, documents.floor.doc)
  refuseDifferent(files, manifest, records)
  const people = ArchivePeople.safeParse(json(files, archiveFiles.people))
  if (!people.success) throw new Fault({ code: 'damaged-file', name: archiveFiles.people })
  return { manifest, people: people.data, records, documents, pictures: picturesIn(files, records) }
}

function readManifest(files: Files): ArchiveManifest {
  if (!files.has(archiveFiles.manifest)) throw new Fault({ code: 'no-manifest' })
  const raw = json(files, archiveFiles.manifest)
  const version = (raw as { version?: unknown } | null)?.version
  if (typeof version === 'number' && version > archiveVersion)
    throw new Fault({ code: 'newer-version', version, known: archiveVersion })
  const manifest = ArchiveManifest.safeParse(raw)
  if (!manifest.success) throw new Fault({ code: 'damaged-file', name: archiveFiles.manifest })
  return manifest.data
}

function contentOf(files: Files, name: string): string {
  const content = files.get(name)
  if (content === undefined) throw new Fault({ code: 'missing-file', name })
  return strFromU8(content)
}

function json(files: Files, name: string): unknown {
  const text = contentOf(files, name)
  try {
    return JSON.parse(text)
  } catch {
    throw new Fault({ code: 'damaged-file', name })
  }
}

function readDocument(files: Files, kind: DocumentKind, name: string): Archive['documents'][DocumentKind] {
  const log = readLog(contentOf(files, name))
  if ('badLine' in log) throw new Fault({ code: 'bad-log', name, line: log.badLine, problem: 'not a line of a log' })
  if (log.length > archiveLimits.updates)
    throw new Fault({ code: 'bad-log', name, line: archiveLimits.updates + 1, problem: 'too many lines' })
  const replay = replayLog(kind, log)
  if (!replay.ok) throw new Fault({ code: 'bad-log', name, line: replay.line, problem: replay.problem })
  return replay
}

function picturesIn(files: Files, { pictures }: CaseRecords): Map<string, Uint8Array> {
  return new Map(
    pictures.map((picture) => {
      const name = pictureFile(picture)
      const bytes = files.get(name)
      if (bytes === undefined) throw new Fault({ code: 'missing-file', name })
      if (!isPicture(picture, bytes)) throw new Fault({ code: 'bad-picture', name })
      return [picture.id, bytes]
    }),
  )
}

/** As the board that took it in had cleaned it. */
function isPicture({ mediaType, width, height, bytes: length, sha256: digest }: Picture, bytes: Uint8Array): boolean {
  if (bytes.length !== length || bytesToHex(sha256(bytes)) !== digest) return false
  const cleaning = cleanPicture(bytes)
  if (!cleaning.ok) return false
  const { picture } = cleaning
  const isSame = picture.bytes.length === length && bytesToHex(sha256(picture.bytes)) === digest
  return isSame && picture.mediaType === mediaType && picture.width === width && picture.height === height
}

function refuseDifferent(files: Files, manifest: ArchiveManifest, records: CaseRecords): void {
  const beside = json(files, archiveFiles.records) as CanonicalValue
  const isSame = (a: unknown, b: unknown) => canonicalJson(a as CanonicalValue) === canonicalJson(b as CanonicalValue)
  if (!isSame(beside, records) || !isSame(manifest.codes, codesOf(records))) throw new Fault({ code: 'records-differ' })
}
