import { generateKeyBetween } from 'fractional-indexing'
import * as Y from 'yjs'
import { operationDay } from '../../lib/board/day-of-operation.ts'
import { documentName } from '../../lib/board/documents.ts'
import type { ParticipantId } from '../../lib/board/identity.ts'
import { type DocumentKind, kindsIn } from '../../lib/board/records.ts'
import type { CaseArchivePreview } from '../../lib/interchange/api.ts'
import { compareRecords } from '../../lib/interchange/archive/compare.ts'
import type { ArchivePerson } from '../../lib/interchange/archive/manifest.ts'
import type { ArchiveFault } from '../../lib/interchange/archive/read-archive.ts'
import type { ArchiveSource } from '../../lib/interchange/archive/write-archive.ts'
import { type CaseRecords, recordsInTables } from '../../lib/interchange/case-records.ts'
import { RecordTables } from '../guard/record-tables.ts'
import type { Hub } from '../room/hub.ts'
import { projectOutcome } from '../room/outcome-projection.ts'
import { projectFloor, projectRecord } from '../room/projection.ts'
import { type Erasure, type Store, StoreConflict, type StoredCase, type UpdateEntry } from '../store/store.ts'
import type { ReadCase } from './archive-job.ts'
import { ArchiveThreads } from './archive-thread.ts'

/** A case as a whole: taken out, taken in from another installation, erased. */
export interface Exchange {
  /** every record as it stands, and the day of the operation where it is known */
  recordsOf(caseId: string): Promise<{ records: CaseRecords; operatedOn: string | undefined }>
  archiveOf(place: StoredCase): Promise<Uint8Array>
  /** Checks an archive and holds it against what is here; writes nothing. @param sees whether the caller may see a case */
  preview(bytes: Uint8Array, sees: (place: StoredCase) => boolean): Promise<CaseArchivePreview | ArchiveFault>
  /**
   * Makes a case of an archive, with authors, times and record codes as they were.
   * @param as under its own id, or as a copy beside a case that has that id
   * @returns the new case; `taken` when there is or was one of its id
   */
  takeIn(bytes: Uint8Array, programme: string, as: 'original' | 'copy'): Promise<StoredCase | ArchiveFault | 'taken'>
  erase(caseId: string, by: ParticipantId): Promise<Erasure>
}

export interface ExchangeParts {
  readonly store: Store
  readonly hub: Hub
  readonly now: () => Date
  readonly newId: () => string
}

export function createExchange({ store, hub, now, newId }: ExchangeParts): Exchange {
  const threads = new ArchiveThreads()

  async function recordsOf(caseId: string) {
    const [record, floor] = await Promise.all([
      hub.visit(documentName('record', caseId)),
      hub.visit(documentName('floor', caseId)),
    ])
    return { records: recordsInTables(record.tables, floor.tables), operatedOn: operationDay(record.tables) }
  }

  async function peopleOf(caseId: string): Promise<ArchivePerson[]> {
    const authors = await store.listAuthors(caseId)
    return authors.map(({ participant: { id, name, affiliation }, role }) => ({ id, name, affiliation, role }))
  }

  /** One that is withdrawn in this moment is missing, and the archive is not written: it is without it when asked for again. */
  async function picturesOf(caseId: string, { pictures }: CaseRecords): Promise<Map<string, Uint8Array>> {
    const found = new Map<string, Uint8Array>()
    for (const { id } of pictures) {
      const picture = await store.picture(caseId, id)
      if (picture !== null) found.set(id, picture.bytes)
    }
    return found
  }

  async function sourceOf({ id, label }: StoredCase): Promise<ArchiveSource> {
    const [record, floor] = await Promise.all(
      (['record', 'floor'] as const).map((kind) => store.log(documentName(kind, id), 0, Number.MAX_SAFE_INTEGER)),
    )
    const { records, operatedOn } = await recordsOf(id)
    return {
      caseId: id,
      label,
      at: now().toISOString(),
      operatedOn,
      people: await peopleOf(id),
      logs: { record: record ?? [], floor: floor ?? [] },
      pictures: await picturesOf(id, records),
    }
  }

  async function readCase(bytes: Uint8Array): Promise<ReadCase | ArchiveFault> {
    const outcome = await threads.run(() => ({ kind: 'read', bytes }))
    if (outcome.kind === 'read') return outcome.archive
    if (outcome.kind === 'refused') return outcome.fault
    throw new Error(`An archive could not be read: ${outcome.kind === 'failed' ? outcome.message : outcome.kind}`)
  }

  const wasErased = async (caseId: string) => (await store.listErasures()).find((each) => each.caseId === caseId)

  async function write(archive: ReadCase, place: { id: string; programme: string }): Promise<StoredCase> {
    const { id, programme } = place
    await addPeople(archive.people)
    const inProgramme = (await store.listCases()).filter((each) => each.programme === programme)
    await store.createCase({
      id,
      programme,
      label: archive.manifest.label,
      rank: generateKeyBetween(inProgramme.at(-1)?.rank ?? null, null),
      createdAt: now().toISOString(),
    })
    // Before the log, so that no record names bytes that are not there.
    for (const { id: picture, mediaType } of archive.records.pictures)
      await store.savePicture(id, picture, { mediaType, bytes: archive.pictures.get(picture) ?? new Uint8Array() })
    // One call, so that the log is there whole or not at all.
    await store.append([...entriesOf(id, archive, 'record'), ...entriesOf(id, archive, 'floor')])
    return finished(id, archive)
  }

  /** States and columns, so that the case opens at once and lists show it; both could be made again from the log. */
  async function finished(id: string, { documents }: ReadCase): Promise<StoredCase> {
    const tables = { record: tablesOf('record', documents), floor: tablesOf('floor', documents) }
    for (const kind of ['record', 'floor'] as const) {
      const { state, lines } = documents[kind]
      if (lines.length > 0) await store.saveSnapshot(documentName(kind, id), { seq: lines.length, state })
    }
    const stored = await store.findCase(id)
    if (stored === null) throw new StoreConflict(`No case ${id}.`)
    const projection = { ...stored, ...projectRecord(tables.record), ...projectFloor(tables.floor) }
    await store.saveProjection(id, { ...projection, updatedAt: now().toISOString() })
    await store.saveOutcome(id, projectOutcome(tables.record))
    return (await store.findCase(id)) ?? stored
  }

  /** People who are here already stay as they are; a name that comes along opens nothing. */
  async function addPeople(people: readonly ArchivePerson[]): Promise<void> {
    for (const { id, name, affiliation } of people)
      if ((await store.findParticipant(id)) === null)
        await store.createParticipant({ id, name, affiliation, createdAt: now().toISOString() })
  }

  return {
    recordsOf,
    archiveOf: async (place) => {
      const outcome = await threads.run(async () => ({ kind: 'write', source: await sourceOf(place) }))
      if (outcome.kind === 'written') return outcome.bytes
      throw new Error(`An archive could not be written: ${outcome.kind === 'failed' ? outcome.message : outcome.kind}`)
    },
    preview: async (bytes, sees) => {
      const archive = await readCase(bytes)
      if ('code' in archive) return archive
      const { manifest, people, records } = archive
      const here = await store.findCase(manifest.caseId)
      const isSeen = here !== null && sees(here)
      const kinds = compareRecords(records, isSeen ? (await recordsOf(here.id)).records : undefined)
      const isSame = kinds.every(({ onlyInArchive, differs, onlyHere }) => onlyInArchive + differs + onlyHere === 0)
      const erased = await wasErased(manifest.caseId)
      return {
        caseId: manifest.caseId,
        label: manifest.label,
        writtenAt: manifest.writtenAt,
        people: people.length,
        kinds,
        leftOut: manifest.leftOut,
        standing:
          here !== null ? (isSeen ? (isSame ? 'same' : 'differs') : 'taken') : erased === undefined ? 'new' : 'erased',
        erasedAt: erased?.at ?? null,
      }
    },
    takeIn: async (bytes, programme, as) => {
      const archive = await readCase(bytes)
      if ('code' in archive) return archive
      const { caseId } = archive.manifest
      const isTaken = (await store.findCase(caseId)) !== null || (await wasErased(caseId)) !== undefined
      if (as === 'original' && isTaken) return 'taken'
      return write(archive, { id: as === 'original' ? caseId : newId(), programme })
    },
    erase: async (caseId, by) => {
      await hub.discardCase(caseId)
      const erasure = await store.eraseCase(caseId, { id: newId(), by, at: now().toISOString() })
      // A room that somebody opened in between holds what is gone.
      await hub.discardCase(caseId)
      return erasure
    },
  }
}

const entriesOf = (caseId: string, { documents }: ReadCase, kind: DocumentKind): UpdateEntry[] =>
  documents[kind].lines.map(({ seq: _, ...line }) => ({ ...line, document: documentName(kind, caseId) }))

function tablesOf(kind: DocumentKind, documents: ReadCase['documents']): RecordTables {
  const doc = new Y.Doc()
  Y.applyUpdate(doc, documents[kind].state)
  const tables = new RecordTables()
  tables.fill(doc, kindsIn(kind))
  doc.destroy()
  return tables
}
