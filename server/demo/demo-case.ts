import { createHash } from 'node:crypto'
import * as Y from 'yjs'
import { putRecord } from '../../lib/board/edits/writing.ts'
import { onlyId } from '../../lib/board/identity.ts'
import { parseRecord } from '../../lib/board/judge.ts'
import { type Point, type PointRoute, pointKey } from '../../lib/board/records/hearing-test.ts'
import { backingId } from '../../lib/board/records/question.ts'
import { type DocumentKind, type KindName, kindOf, kindsIn, type RecordOf } from '../../lib/board/records.ts'
import type { Role } from '../../lib/board/roles.ts'
import type { RecordNow } from '../../lib/board/sealer.ts'
import { usualVisits } from '../../lib/board/visit-plan.ts'
import type { CaseProjection } from '../../lib/interchange/api.ts'
import type { FrequencyHz } from '../../lib/units/frequencies.ts'
import { RecordTables } from '../guard/record-tables.ts'
import { projectOutcome } from '../room/outcome-projection.ts'
import { projectFloor, projectRecord } from '../room/projection.ts'
import type { Participant, Store } from '../store/store.ts'
import { demoLog, type WrittenRecord } from './demo-log.ts'
import { drawnSize } from './drawn-field.ts'

/** Somebody of the invented meeting. */
export interface DemoPerson extends Omit<Participant, 'createdAt'> {
  readonly role: Role
}

export type Fields<K extends KindName> = Omit<RecordOf<K>, 'id' | 'author' | 'at'>

/** Writes an invented case record by record, each as somebody at some time, through the same schemas as everything else. */
export class DemoCase {
  readonly id: string
  private readonly now: Date
  private readonly written: WrittenRecord[] = []
  private readonly photographs = new Map<string, Uint8Array>()

  constructor(id: string, now: Date) {
    this.id = id
    this.now = now
  }

  /** @param hoursAgo when it was written, before the demo was made */
  put<K extends KindName>(kind: K, id: string, by: DemoPerson, hoursAgo: number, fields: Fields<K>): void {
    const record = { ...fields, id, author: by.id, at: this.moment(hoursAgo) }
    const parsed = parseRecord(kind, id, record)
    if (!parsed.ok) throw new RangeError(`demo record ${kind}/${id}: ${JSON.stringify(parsed.refused.facts)}`)
    this.written.push({ kind, by, record: parsed.record })
  }

  back(question: string, by: DemoPerson, hoursAgo: number): void {
    this.put('backings', backingId(question, by.id), by, hoursAgo, { question })
  }

  /** A drawing in the place of a photograph. @param bytes PNG */
  photograph(
    id: string,
    by: DemoPerson,
    hoursAgo: number,
    bytes: Uint8Array,
    said: Pick<Fields<'pictures'>, 'caption' | 'step'>,
  ): void {
    const sha256 = createHash('sha256').update(bytes).digest('hex')
    this.put('pictures', id, by, hoursAgo, {
      ...said,
      ...drawnSize,
      mediaType: 'image/png',
      bytes: bytes.length,
      sha256,
    })
    this.photographs.set(id, bytes)
  }

  moment(hoursAgo: number): string {
    return new Date(this.now.getTime() - hoursAgo * 3_600_000).toISOString()
  }

  /** What somebody was looking at whose picture is late. @param delayMs their video delay */
  momentSeen(hoursAgo: number, delayMs: number): string {
    return new Date(this.now.getTime() - hoursAgo * 3_600_000 - delayMs).toISOString()
  }

  day(daysAgo: number): string {
    return this.moment(daysAgo * 24).slice(0, 10)
  }

  signed(by: DemoPerson, hoursAgo: number): { by: string; at: string } {
    return { by: by.id, at: this.moment(hoursAgo) }
  }

  /** Visits as somebody planned them after an operation so many days ago. */
  planVisits(by: DemoPerson, hoursAgo: number, operatedDaysAgo: number): void {
    for (const visit of usualVisits(this.day(operatedDaysAgo), undefined, 1))
      this.put('visits', `visit-${visit.occasion}`, by, hoursAgo, {
        ...visit,
        state: 'planned',
        findings: '',
        complications: {},
        note: '',
      })
  }

  /** The record as far as it has been written, for what is computed from it. */
  recordNow(): RecordNow {
    const tables = this.tables('record')
    const plan = tables.get('plan', onlyId)
    if (plan === undefined) throw new RangeError(`case ${this.id} has no plan yet`)
    return {
      plan,
      header: tables.get('header', onlyId),
      tests: [...tables.values('tests')],
      speechTests: [...tables.values('speechTests')],
    }
  }

  /** Stores both documents as a log of what was written when, each record in the name of its author, and the case's columns. */
  async store(store: Store, place: { programme: string; label: string; rank: string }): Promise<void> {
    await store.createCase({ id: this.id, createdAt: this.now.toISOString(), ...place })
    for (const [id, bytes] of this.photographs) await store.savePicture(this.id, id, { mediaType: 'image/png', bytes })
    await store.append(demoLog(this.id, this.written))
    await store.saveProjection(this.id, this.projection(place.label))
    await store.saveOutcome(this.id, projectOutcome(this.tables('record')))
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
    for (const { kind: table, record } of this.written)
      if (kindOf(table).document === kind) putRecord(doc, table, record)
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
