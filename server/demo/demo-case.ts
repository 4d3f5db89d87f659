import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { putRecord } from '../../lib/board/edits/writing.ts'
import { parseRecord } from '../../lib/board/judge.ts'
import { type Point, type PointRoute, pointKey } from '../../lib/board/records/hearing-test.ts'
import { backingId } from '../../lib/board/records/question.ts'
import { type DocumentKind, type KindName, kindOf, kindsIn, type RecordOf } from '../../lib/board/records.ts'
import type { Role } from '../../lib/board/roles.ts'
import type { CaseProjection } from '../../lib/interchange/api.ts'
import type { FrequencyHz } from '../../lib/units/frequencies.ts'
import { RecordTables } from '../guard/record-tables.ts'
import { projectFloor, projectRecord } from '../room/projection.ts'
import type { Participant, Store } from '../store/store.ts'

/** Somebody of the invented meeting. */
export interface DemoPerson extends Omit<Participant, 'createdAt'> {
  readonly role: Role
}

export type Fields<K extends KindName> = Omit<RecordOf<K>, 'id' | 'author' | 'at'>

/** Writes an invented case record by record, each as somebody at some time, through the same schemas as everything else. */
export class DemoCase {
  readonly id: string
  private readonly now: Date
  /** One copy a document and author, so that the log says of every record who wrote it. */
  private readonly copies = new Map<
    string,
    { readonly by: DemoPerson; readonly kind: DocumentKind; readonly doc: Y.Doc }
  >()

  constructor(id: string, now: Date) {
    this.id = id
    this.now = now
  }

  /** @param hoursAgo when it was written, before the demo was made */
  put<K extends KindName>(kind: K, id: string, by: DemoPerson, hoursAgo: number, fields: Fields<K>): void {
    const record = { ...fields, id, author: by.id, at: this.moment(hoursAgo) }
    const parsed = parseRecord(kind, id, record)
    if (!parsed.ok) throw new RangeError(`demo record ${kind}/${id}: ${JSON.stringify(parsed.refused.facts)}`)
    putRecord(this.copyOf(by, kindOf(kind).document), kind, parsed.record as RecordOf<K>)
  }

  private copyOf(by: DemoPerson, kind: DocumentKind): Y.Doc {
    const key = `${kind} ${by.id}`
    const copy = this.copies.get(key) ?? { by, kind, doc: new Y.Doc() }
    this.copies.set(key, copy)
    return copy.doc
  }

  back(question: string, by: DemoPerson, hoursAgo: number): void {
    this.put('backings', backingId(question, by.id), by, hoursAgo, { question })
  }

  moment(hoursAgo: number): string {
    return new Date(this.now.getTime() - hoursAgo * 3_600_000).toISOString()
  }

  day(daysAgo: number): string {
    return this.moment(daysAgo * 24).slice(0, 10)
  }

  signed(by: DemoPerson, hoursAgo: number): { by: string; at: string } {
    return { by: by.id, at: this.moment(hoursAgo) }
  }

  /** Stores both documents, each record in the name of its author, and the columns of the case. */
  async store(store: Store, place: { programme: string; label: string; rank: string }): Promise<void> {
    await store.createCase({ id: this.id, createdAt: this.now.toISOString(), ...place })
    for (const { by, kind, doc } of this.copies.values()) {
      const entry = {
        document: documentName(kind, this.id),
        update: Y.encodeStateAsUpdate(doc),
        author: by.id,
        role: by.role,
      }
      await store.append([{ ...entry, at: this.now.toISOString(), clients: [doc.clientID] }])
    }
    await store.saveProjection(this.id, this.projection(place.label))
  }

  private projection(label: string): CaseProjection {
    const blank = {
      label,
      phase: null,
      ear: null,
      deviceClass: null,
      couplingSite: null,
      openQuestions: 0,
      contingenciesMet: 0,
      nextVisitDue: null,
    }
    return {
      ...blank,
      ...projectRecord(this.tables('record')),
      ...projectFloor(this.tables('floor')),
      updatedAt: this.now.toISOString(),
    }
  }

  private tables(kind: DocumentKind): RecordTables {
    const doc = new Y.Doc()
    for (const copy of this.copies.values()) if (copy.kind === kind) Y.applyUpdate(doc, Y.encodeStateAsUpdate(copy.doc))
    const tables = new RecordTables()
    tables.fill(doc, kindsIn(kind))
    return tables
  }
}

/** A level, or `NR110` for no response at 110 dB HL; a dash where nothing was tested. */
type Cell = number | `NR${number}` | '-'

/** Points of one route from a row of cells under a row of frequencies. */
export function points(
  route: PointRoute,
  masked: boolean,
  frequencies: readonly FrequencyHz[],
  cells: readonly Cell[],
): Record<string, Point> {
  const entries = frequencies.flatMap((frequency, index) => {
    const cell = cells[index]
    if (cell === undefined || cell === '-') return []
    const point =
      typeof cell === 'number' ? { kind: 'heard', level: cell } : { kind: 'no-response', limit: Number(cell.slice(2)) }
    return [[pointKey({ route, masked, frequency }), point as Point] as const]
  })
  return Object.fromEntries(entries)
}

export const conventional: readonly FrequencyHz[] = [250, 500, 1000, 2000, 3000, 4000, 6000, 8000]
