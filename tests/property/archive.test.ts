import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { strToU8, type Unzipped, unzipSync, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { changeRecord, putRecord, removeRecord } from '@/lib/board/edits/writing.ts'
import { type DocumentKind, type KindName, kindNames, kindOf, type RecordOf } from '@/lib/board/records.ts'
import type { LogLine } from '@/lib/interchange/archive/log-lines.ts'
import { ArchiveManifest, archiveFiles, archiveLimits } from '@/lib/interchange/archive/manifest.ts'
import { type Archive, readArchive } from '@/lib/interchange/archive/read-archive.ts'
import { codesOf, recordsOf, writeArchive } from '@/lib/interchange/archive/write-archive.ts'
import { htmlPage, pngMetadata, pngOf } from '../fixtures/pictures.ts'
import { sampleId, samplePicture, sampleRecord } from '../support/sample-records.ts'

const at = '2026-05-04T10:00:00.000Z'

/** The log of a case in which these records were written one after the other, some of them reworded or taken back. */
function logsOf(steps: readonly { kind: KindName; author: string; name: string; after: string }[]) {
  const docs = { record: new Y.Doc(), floor: new Y.Doc() }
  const logs: Record<DocumentKind, LogLine[]> = { record: [], floor: [] }
  const write = (document: DocumentKind, author: string, edit: (doc: Y.Doc) => void) => {
    const before = Y.encodeStateVector(docs[document])
    edit(docs[document])
    const update = Y.encodeStateAsUpdate(docs[document], before)
    logs[document].push({ seq: logs[document].length + 1, author, role: 'moderator', at, update })
  }
  for (const { kind, author, name, after } of steps) {
    const { document, single } = kindOf(kind)
    const id = sampleId(kind, author, name)
    const record = sampleRecord(kind, id, author) as unknown as RecordOf<KindName>
    write(document, author, (doc) => putRecord(doc, kind, record))
    if (after === 'again')
      write(document, author, (doc) => changeRecord(doc, kind, id, { at: '2026-05-04T11:00:00.000Z' }))
    if (after === 'gone' && single !== true) write(document, author, (doc) => removeRecord(doc, kind, id))
  }
  return logs
}

/** The bytes of whatever photograph a case may have here. */
const pictures = new Map(['new', 'one', 'two', 'three'].map((name) => [`pictures-${name}`, samplePicture]))

const person = (id: string) => ({ id, name: id, affiliation: 'Clinic', role: 'moderator' as const })
const archiveOf = (logs: ReturnType<typeof logsOf>) =>
  writeArchive({
    caseId: 'case-1',
    label: 'Case Heron',
    at,
    operatedOn: undefined,
    people: [person('ann'), person('bob')],
    logs,
    pictures,
  })

function read(bytes: Uint8Array): Archive {
  const reading = readArchive(bytes)
  if (!reading.ok) throw new Error(JSON.stringify(reading.fault))
  return reading.archive
}

const everyKind = kindNames.map((kind) => ({ kind, author: 'ann', name: 'new', after: 'stays' }))
const steps = fc.array(
  fc.record({
    kind: fc.constantFrom(...kindNames),
    author: fc.constantFrom('ann', 'bob'),
    name: fc.constantFrom('one', 'two', 'three'),
    after: fc.constantFrom('stays', 'again', 'gone'),
  }),
  { maxLength: 25 },
)

describe('the archive of a case', () => {
  it('carries every kind of record there and back with author, time and code', () => {
    const logs = logsOf(everyKind)
    const { records, people, manifest } = read(archiveOf(logs))
    expect(records).toEqual(recordsOf(logs))
    for (const kind of kindNames) expect([kind, records[kind].length]).toEqual([kind, 1])
    expect(records.tests[0]).toMatchObject({ author: 'ann', at })
    expect(people.map(({ id }) => id)).toEqual(['ann', 'bob'])
    expect(Object.keys(manifest.codes)).toHaveLength(2)
    expect(read(archiveOf(logs)).pictures).toEqual(new Map([['pictures-new', samplePicture]]))
  })

  it('loses nothing of any history: log, records, codes', () => {
    fc.assert(
      fc.property(steps, (taken) => {
        const logs = logsOf(taken)
        const archive = read(archiveOf(logs))
        for (const document of ['record', 'floor'] as const)
          expect(
            archive.documents[document].lines.map(({ clients, marks, ...line }) => ({
              ...line,
              update: [...line.update],
            })),
          ).toEqual(logs[document].map((line) => ({ ...line, update: [...line.update] })))
        expect(archive.records).toEqual(recordsOf(logs))
        expect(archive.manifest.codes).toEqual(codesOf(archive.records))
        const again = writeArchive({
          caseId: 'case-1',
          label: 'Case Heron',
          at,
          operatedOn: undefined,
          people: archive.people,
          logs: { record: archive.documents.record.lines.map(bare), floor: archive.documents.floor.lines.map(bare) },
          pictures: archive.pictures,
        })
        expect(again).toEqual(archiveOf(logs))
      }),
      { numRuns: 40 },
    )
  })

  it('is refused, never thrown at, when any of its bytes is another', () => {
    const whole = archiveOf(logsOf(everyKind))
    fc.assert(
      fc.property(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 }), (place, change) => {
        const bytes = whole.slice()
        bytes[place] = (bytes[place] ?? 0) ^ change
        const reading = readArchive(bytes)
        // A changed byte of the zip's own bookkeeping (a date, an attribute) may leave all content as it was.
        if (reading.ok) expect(reading.archive.records).toEqual(read(whole).records)
      }),
      { numRuns: 150 },
    )
  })

  it('is refused when it is cut short anywhere', () => {
    const whole = archiveOf(logsOf(everyKind))
    fc.assert(
      fc.property(fc.nat(whole.length - 1), (length) => {
        expect(readArchive(whole.slice(0, length)).ok).toBe(false)
      }),
      { numRuns: 60 },
    )
  })
})

const bare = ({ seq, author, role, at: when, update }: LogLine): LogLine => ({ seq, author, role, at: when, update })

describe('a file that is no honest archive', () => {
  const files = (): Unzipped => unzipSync(archiveOf(logsOf(everyKind)))
  const faultOf = (bytes: Uint8Array) => {
    const reading = readArchive(bytes)
    return reading.ok ? undefined : reading.fault
  }

  it.each(['../evil.json', '/etc/passwd', 'a/../../b', 'C:\\x', 'log/.hidden', 'a//b'])(
    'with the name %s is refused',
    (name) => {
      expect(faultOf(zipSync({ ...files(), [name]: strToU8('x') }))).toEqual({ code: 'bad-file-name', name })
    },
  )

  it('that unpacks to far more than it is, is refused before it is unpacked', () => {
    const bomb = zipSync({ 'records.json': new Uint8Array(50 * 1024 * 1024) }, { level: 9 })
    expect(bomb.length).toBeLessThan(100 * 1024)
    expect(faultOf(bomb)).toEqual({ code: 'unpacks-too-large', name: 'records.json' })
  })

  it('that says less in its directory than it holds, is unpacked no further than it says', () => {
    const bomb = zipSync({ 'records.json': new Uint8Array(20 * 1024 * 1024) }, { level: 9 })
    const view = new DataView(bomb.buffer, bomb.byteOffset, bomb.byteLength)
    // Size in the central directory, 24 bytes behind its signature (PKWARE APPNOTE 4.3.12).
    for (let place = 0; place < bomb.length - 4; place++)
      if (view.getUint32(place, true) === 0x02014b50) view.setUint32(place + 24, 1000, true)
    expect(faultOf(bomb)).toMatchObject({ code: expect.stringMatching(/not-an-archive|no-manifest/) })
  })

  it('with too many files is refused', () => {
    const many = Object.fromEntries(Array.from({ length: archiveLimits.files + 1 }, (_, n) => [`f${n}`, strToU8('x')]))
    expect(faultOf(zipSync(many))).toEqual({ code: 'too-many-files', most: archiveLimits.files })
  })

  it('with a file that the manifest does not list, or without one that it lists, is refused', () => {
    expect(faultOf(zipSync({ ...files(), 'extra.txt': strToU8('x') }))).toEqual({
      code: 'unlisted-file',
      name: 'extra.txt',
    })
    const { [archiveFiles.people]: _gone, ...others } = files()
    expect(faultOf(zipSync(others))).toEqual({ code: 'missing-file', name: archiveFiles.people })
  })

  it('with another content than its checksum is refused', () => {
    expect(faultOf(zipSync({ ...files(), [archiveFiles.people]: strToU8('[]') }))).toEqual({
      code: 'damaged-file',
      name: archiveFiles.people,
    })
  })

  /** The archive with other bytes under the name of its photograph, and a manifest that agrees with them. */
  const withPicture = (bytes: Uint8Array | undefined) => {
    const { [archiveFiles.manifest]: written, ...others } = files()
    const name = Object.keys(others).find((each) => each.startsWith('pictures/')) ?? ''
    const manifest = ArchiveManifest.parse(JSON.parse(new TextDecoder().decode(written)))
    const listed = manifest.files.filter((file) => file.name !== name)
    delete others[name]
    if (bytes !== undefined) {
      others[name] = new Uint8Array(bytes)
      listed.push({ name, bytes: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') })
    }
    const fault = faultOf(
      zipSync({ ...others, [archiveFiles.manifest]: strToU8(JSON.stringify({ ...manifest, files: listed })) }),
    )
    return { name, fault }
  }

  it('with another picture than its record names is refused, although its manifest agrees', () => {
    expect(withPicture(samplePicture).fault).toBeUndefined()
    for (const other of [pngOf({ width: 7 }), pngOf({ after: pngMetadata }), htmlPage, new Uint8Array()]) {
      const { name, fault } = withPicture(other)
      expect(fault).toEqual({ code: 'bad-picture', name })
    }
    const { name, fault } = withPicture(undefined)
    expect(fault).toEqual({ code: 'missing-file', name })
  })

  it('with a picture that was never cleaned is refused, although record, log and manifest agree', () => {
    const unclean = pngOf({ after: pngMetadata })
    const doc = new Y.Doc()
    const facts = { bytes: unclean.length, sha256: createHash('sha256').update(unclean).digest('hex') }
    putRecord(doc, 'pictures', { ...sampleRecord('pictures', 'pictures-new', 'ann'), ...facts } as never)
    const line = { seq: 1, author: 'ann', role: 'moderator' as const, at, update: Y.encodeStateAsUpdate(doc) }
    const bytes = writeArchive({
      caseId: 'case-1',
      label: 'Case Heron',
      at,
      operatedOn: undefined,
      people: [person('ann')],
      logs: { record: [line], floor: [] },
      pictures: new Map([['pictures-new', unclean]]),
    })
    expect(faultOf(bytes)).toMatchObject({ code: 'bad-picture' })
  })

  it('of a newer version says so', () => {
    const manifest = JSON.parse(new TextDecoder().decode(files()[archiveFiles.manifest])) as object
    const newer = strToU8(JSON.stringify({ ...manifest, version: 2 }))
    expect(faultOf(zipSync({ ...files(), [archiveFiles.manifest]: newer }))).toEqual({
      code: 'newer-version',
      version: 2,
      known: 1,
    })
  })

  it('with no zip in it, too large a zip, or a zip of something else is refused', () => {
    expect(faultOf(strToU8('PK not a zip'))).toEqual({ code: 'not-an-archive' })
    expect(faultOf(zipSync({ 'photo.jpg': strToU8('x') }))).toEqual({ code: 'no-manifest' })
    expect(faultOf(new Uint8Array(archiveLimits.bytes + 1))).toMatchObject({ code: 'archive-too-large' })
  })
})
