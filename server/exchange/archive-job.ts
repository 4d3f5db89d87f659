import * as Y from 'yjs'
import type { DocumentKind } from '../../lib/board/records.ts'
import { pictureFile } from '../../lib/interchange/archive/manifest.ts'
import type { Archive, ArchiveFault } from '../../lib/interchange/archive/read-archive.ts'
import { readArchive } from '../../lib/interchange/archive/read-archive.ts'
import type { ReplayedLine } from '../../lib/interchange/archive/replay.ts'
import { type ArchiveSource, writeArchive } from '../../lib/interchange/archive/write-archive.ts'
import { cleanPicture } from '../../lib/interchange/pictures/clean-picture.ts'
import { unpacksToItsRowsNow } from '../pictures/unpack-pixels.ts'

/** What is computed about archives away from the event loop, so that no edit waits for a large file. */
export type ArchiveJob =
  | { readonly kind: 'write'; readonly source: ArchiveSource }
  | { readonly kind: 'read'; readonly bytes: Uint8Array }

/** An archive as it crosses between threads: a document as its state instead of the object. */
export type ReadCase = Omit<Archive, 'documents'> & {
  readonly documents: Readonly<
    Record<DocumentKind, { readonly state: Uint8Array; readonly lines: readonly ReplayedLine[] }>
  >
}

export type ArchiveOutcome =
  | { readonly kind: 'written'; readonly bytes: Uint8Array }
  | { readonly kind: 'read'; readonly archive: ReadCase }
  | { readonly kind: 'refused'; readonly fault: ArchiveFault }
  | { readonly kind: 'failed'; readonly message: string }

export function doArchiveJob(job: ArchiveJob): ArchiveOutcome {
  try {
    if (job.kind === 'write') return { kind: 'written', bytes: writeArchive(job.source) }
    const reading = readArchive(job.bytes)
    if (!reading.ok) return { kind: 'refused', fault: reading.fault }
    const fault = hiddenInPixels(reading.archive)
    if (fault !== undefined) return { kind: 'refused', fault }
    const { documents, ...archive } = reading.archive
    const across = ({ doc, lines }: Archive['documents'][DocumentKind]) => ({
      state: Y.encodeStateAsUpdate(doc),
      lines,
    })
    return {
      kind: 'read',
      archive: { ...archive, documents: { record: across(documents.record), floor: across(documents.floor) } },
    }
  } catch (error) {
    return { kind: 'failed', message: error instanceof Error ? error.message : String(error) }
  }
}

/** What the structure of a PNG does not show: pixels that unpack to something else than its rows. */
function hiddenInPixels({ records, pictures }: Archive): ArchiveFault | undefined {
  for (const picture of records.pictures) {
    const cleaning = cleanPicture(pictures.get(picture.id) ?? new Uint8Array())
    const pixels = cleaning.ok ? cleaning.picture.pixels : undefined
    if (pixels !== undefined && !unpacksToItsRowsNow(pixels)) return { code: 'bad-picture', name: pictureFile(picture) }
  }
  return undefined
}
