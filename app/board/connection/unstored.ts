import * as z from 'zod/mini'
import { type KindName, kindNames } from '@/lib/board/records.ts'
import { type Place, placeText } from './changed-places.ts'

const PlaceSchema = z.strictObject({
  kind: z.enum(kindNames as [KindName, ...KindName[]]),
  id: z.string(),
  field: z.exactOptional(z.string()),
  key: z.exactOptional(z.string()),
})
const Journal = z.array(PlaceSchema)

interface Entry {
  readonly place: Place
  /** number of the content frame that carries the change; absent while none has */
  readonly frame: number | undefined
}

/**
 * What this page changed and the server has not confirmed. Content frames are counted a socket, as the server counts
 * them: it answers that the first n are stored, or that one was refused.
 */
export class Unstored {
  private entries = new Map<string, Entry>()
  /** What an earlier page left, until the copy that holds it has been read: no frame of this page carries it before. */
  private held: readonly Place[] = []
  private sent = 0
  private confirmed = 0

  /** A local edit; the frame that carries it is still to be sent. */
  note(places: readonly Place[]): void {
    for (const place of places) this.entries.set(placeText(place), { place, frame: undefined })
  }

  /** A content frame goes out; it carries all that no frame carried before. */
  send(): void {
    this.sent += 1
    for (const [text, { place, frame }] of this.entries)
      if (frame === undefined) this.entries.set(text, { place, frame: this.sent })
  }

  /** The first `frames` frames of this socket are stored (or were refused). */
  confirm(frames: number): void {
    this.confirmed = Math.max(this.confirmed, frames)
    for (const [text, { frame }] of this.entries)
      if (frame !== undefined && frame <= this.confirmed) this.entries.delete(text)
  }

  /** A new socket: frames are counted from one again, and what was on its way counts as unsent. */
  restart(): void {
    this.sent = 0
    this.confirmed = 0
    for (const [text, { place }] of this.entries) this.entries.set(text, { place, frame: undefined })
  }

  /** What a refused frame, and all that was written after it, would have changed. Earlier frames had passed. */
  lostBy(refusedFrame: number): Place[] {
    return [...this.entries.values()]
      .filter(({ frame }) => frame === undefined || frame >= refusedFrame)
      .map(({ place }) => place)
  }

  clear(): void {
    this.entries.clear()
    this.held = []
  }

  get isEmpty(): boolean {
    return this.entries.size === 0 && this.held.length === 0 && this.confirmed >= this.sent
  }

  /** The places as text, for a page that is opened again after it was closed offline. */
  toJournal(): string {
    return JSON.stringify([...this.held, ...[...this.entries.values()].map(({ place }) => place)])
  }

  /** Takes what an earlier page left, as `toJournal` wrote it; `release` follows when its words are in the document. */
  hold(journal: string): void {
    this.held = Journal.safeParse(parseJson(journal)).data ?? []
  }

  release(): void {
    this.note(this.held)
    this.held = []
  }
}

export function parseJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}
