import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { putRecord } from '../../lib/board/edits/writing.ts'
import { parseRecord } from '../../lib/board/judge.ts'
import { type Point, type PointRoute, pointKey } from '../../lib/board/records/hearing-test.ts'
import { backingId } from '../../lib/board/records/question.ts'
import { type KindName, kindOf, type RecordOf } from '../../lib/board/records.ts'
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
  private readonly docs = { record: new Y.Doc(), floor: new Y.Doc() }
  private readonly authors = new Map<string, DemoPerson>()

  constructor(id: string, now: Date) {
    this.id = id
    this.now = now
  }

  /** @param hoursAgo when it was written, before the demo was made */
  put<K extends KindName>(kind: K, id: string, by: DemoPerson, hoursAgo: number, fields: Fields<K>): void {
    const record = { ...fields, id, author: by.id, at: this.moment(hoursAgo) }
    const parsed = parseRecord(kind, id, record)
    if (!parsed.ok) throw new RangeError(`demo record ${kind}/${id}: ${JSON.stringify(parsed.refused.facts)}`)
    putRecord(this.docs[kindOf(kind).document], kind, parsed.record as RecordOf<K>)
    this.authors.set(by.id, by)
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

  /** Stores both documents, in the name of their first author, and the columns of the case. */
  async store(store: Store, place: { programme: string; label: string; rank: string }): Promise<void> {
    await store.createCase({ id: this.id, createdAt: this.now.toISOString(), ...place })
    const author = [...this.authors.values()][0]
    if (author === undefined) throw new RangeError('an empty demo case')
    for (const kind of ['record', 'floor'] as const) {
      const doc = this.docs[kind]
      const update = Y.encodeStateAsUpdate(doc)
      const entry = {
        document: documentName(kind, this.id),
        update,
        author: author.id,
        role: author.role,
        at: this.now.toISOString(),
      }
      await store.append([{ ...entry, clients: [doc.clientID] }])
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
    const tables = new RecordTables()
    tables.fill(this.docs.record, ['header', 'plan', 'contingencies'])
    const floor = new RecordTables()
    floor.fill(this.docs.floor, ['questions'])
    return { ...blank, ...projectRecord(tables), ...projectFloor(floor), updatedAt: this.now.toISOString() }
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
