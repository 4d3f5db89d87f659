import { createHash } from 'node:crypto'
import { closedCaseStays } from '../../lib/board/closed-case.ts'
import { documentName } from '../../lib/board/documents.ts'
import { putRecord } from '../../lib/board/edits/writing.ts'
import type { RecordId } from '../../lib/board/identity.ts'
import type { Sender } from '../../lib/board/judge.ts'
import { type Picture, pictureLimits } from '../../lib/board/records/picture.ts'
import { type Refusal, refusal } from '../../lib/board/refusals.ts'
import { rules, type TableView } from '../../lib/board/rules.ts'
import { type CleanPicture, cleanPicture } from '../../lib/interchange/pictures/clean-picture.ts'
import type { NewPicture } from '../../lib/interchange/pictures/new-picture.ts'
import type { PictureFault } from '../../lib/interchange/pictures/picture-fault.ts'
import { sealer } from '../guard/sealer.ts'
import { oneByOne } from '../one-by-one.ts'
import type { Hub } from '../room/hub.ts'
import type { Store, StoredCase, StoredPicture } from '../store/store.ts'
import { unpacksToItsRows } from './unpack-pixels.ts'

/**
 * Photographs of a case. A document is no place for megabytes, since everybody gets it whole: the bytes lie in the store, and
 * the record, which the server writes, says which they are.
 */
export interface Pictures {
  /** Cleans the picture, stores it, and writes its record in the name of whoever sent it. */
  add(place: StoredCase, by: Sender, bytes: Uint8Array, words: NewPicture): Promise<Picture | NotTaken>
  /** null when there is none, or it was withdrawn */
  find(caseId: string, id: RecordId): Promise<StoredPicture | null>
}

export type NotTaken = { readonly fault: PictureFault | 'too-many-bytes' } | { readonly refused: Refusal }

export interface PicturesParts {
  readonly store: Store
  readonly hub: Hub
  readonly now: () => Date
  readonly newId: () => string
}

export function createPictures({ store, hub, now, newId }: PicturesParts): Pictures {
  /** Unpacked pixels are up to 64 MB, and many may be sent at once. */
  const inItsTurn = oneByOne()

  async function write(place: StoredCase, by: Sender, { bytes, ...facts }: CleanPicture, words: NewPicture) {
    const picture: Picture = {
      id: newId(),
      author: by.participant,
      at: now().toISOString(),
      ...words,
      mediaType: facts.mediaType,
      width: facts.width,
      height: facts.height,
      bytes: bytes.length,
      sha256: createHash('sha256').update(bytes).digest('hex'),
    }
    const room = await hub.visit(documentName('record', place.id))
    const early = reasonAgainst(picture, by, room.tables)
    if (early !== undefined) return { refused: early }
    // Bytes first: a record that names none would be seen by everybody.
    await store.savePicture(place.id, picture.id, { mediaType: picture.mediaType, bytes })
    let refused: Refusal | undefined
    const writeOnce = (doc: Parameters<typeof putRecord>[0]) => {
      // Made anew when somebody else was first, who may have closed the case or sent the last photograph that fits.
      refused = reasonAgainst(picture, by, room.tables)
      if (refused === undefined) putRecord(doc, 'pictures', picture)
    }
    await room.write(writeOnce, by, now().getTime())
    if (refused === undefined) return picture
    await store.dropPicture(place.id, picture.id)
    return { refused }
  }

  return {
    add: async (place, by, bytes, words) => {
      const cleaning = cleanPicture(bytes)
      if (!cleaning.ok) return { fault: cleaning.fault }
      const { picture } = cleaning
      if (picture.bytes.length > pictureLimits.bytes) return { fault: 'too-many-bytes' }
      const { pixels } = picture
      if (pixels !== undefined && !(await inItsTurn(() => unpacksToItsRows(pixels)))) return { fault: 'damaged' }
      return write(place, by, picture, words)
    },
    find: (caseId, id) => store.picture(caseId, id),
  }
}

/** What the guard would say of it, if it came from a page. */
function reasonAgainst(picture: Picture, by: Sender, tables: TableView): Refusal | undefined {
  const change = { kind: 'pictures', id: picture.id, before: undefined, after: picture } as const
  if (tables.count('pictures') >= pictureLimits.ofCase)
    return refusal('too-many', `pictures/${picture.id}`, { kind: 'pictures', most: pictureLimits.ofCase })
  const closed = closedCaseStays(change, tables)
  if (closed !== undefined) return closed
  for (const rule of rules.pictures ?? []) {
    const refused = rule(change, tables, sealer, by)
    if (refused !== undefined) return refused
  }
  return undefined
}
