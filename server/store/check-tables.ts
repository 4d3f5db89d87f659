import * as Y from 'yjs'
import { parseDocumentName } from '../../lib/board/documents.ts'
import { parseRecord } from '../../lib/board/judge.ts'
import { readRaw, tableOf } from '../../lib/board/layout.ts'
import type { Picture } from '../../lib/board/records/picture.ts'
import { kindsIn } from '../../lib/board/records.ts'
import { NamedPictures } from './check-pictures.ts'
import { type Row, type Table, type TableReader, tables } from './tables.ts'

/**
 * Holds a whole board against what the server relies on, and names what is broken, one line each. Reads only.
 * Checked: the database's own files; numbers of each log without gaps; every update readable and complete; the log replayed
 * to records that their schemas know; snapshots and checkpoints equal to the replayed log; client ids owned by who wrote
 * with them; marks, snapshots and ballots that belong to something; photographs that are what their records name.
 */
export async function checkTables(reader: TableReader): Promise<string[]> {
  const problems = [...(await reader.damage())]
  const cases = new Set<string>()
  for await (const [id] of reader.rows(named('cases'), 'key')) cases.add(String(id))
  const owners = await ownersIn(reader)
  const states = await keptStatesIn(reader)
  const lengths = new Map<string, number>()
  const pictures = new NamedPictures()
  let replay: Replay | undefined
  for await (const row of reader.rows(named('updates'), 'key')) {
    const document = String(row[0])
    if (replay?.document !== document) {
      replay?.end(problems)
      replay = new Replay(document, owners.get(document) ?? new Map(), states.get(document) ?? [], pictures)
      states.delete(document)
    }
    replay.take(row, problems)
    lengths.set(document, Number(row[1]))
  }
  replay?.end(problems)
  for (const document of states.keys()) problems.push(`${document}: a kept state, but no log`)
  for (const document of lengths.keys()) {
    const place = parseDocumentName(document)
    if (place === undefined || !cases.has(place.caseId)) problems.push(`${document}: a log, but no case`)
  }
  await checkBelongings(reader, { cases, lengths }, problems)
  await pictures.check(reader, cases, problems)
  return problems
}

interface KeptState {
  readonly what: 'snapshot' | 'checkpoint'
  readonly seq: number
  readonly state: Uint8Array
}

/** One document's log, applied update by update. */
class Replay {
  readonly document: string
  readonly #owners: ReadonlyMap<number, string>
  readonly #states: KeptState[]
  readonly #pictures: NamedPictures
  readonly #doc = new Y.Doc()
  #last = 0
  #broken = false

  constructor(
    document: string,
    owners: ReadonlyMap<number, string>,
    states: readonly KeptState[],
    pictures: NamedPictures,
  ) {
    this.#pictures = pictures
    this.document = document
    this.#owners = owners
    this.#states = states.toSorted((a, b) => a.seq - b.seq)
  }

  take([, seq, bytes, author]: Row, problems: string[]): void {
    const number = Number(seq)
    if (number !== this.#last + 1) problems.push(`${this.document}: no update between ${this.#last} and ${number}`)
    this.#last = number
    if (this.#apply(bytes as Uint8Array, number, String(author), problems)) this.#compareStates(problems)
  }

  end(problems: string[]): void {
    for (const { what, seq } of this.#states)
      problems.push(`${this.document}: a ${what} of number ${seq}, but the log ends at ${this.#last}`)
    if (!this.#broken) this.#checkRecords(problems)
    this.#doc.destroy()
  }

  #apply(bytes: Uint8Array, seq: number, author: string, problems: string[]): boolean {
    try {
      const { structs } = Y.decodeUpdate(bytes)
      const fresh = structs.filter(({ id, length }) => id.clock + length > Y.getState(this.#doc.store, id.client))
      for (const client of new Set(fresh.map(({ id }) => id.client)))
        if (this.#owners.get(client) !== author)
          problems.push(`${this.document}: update ${seq} writes as client ${client}, which is not its author's`)
      Y.applyUpdate(this.#doc, bytes)
    } catch {
      this.#broken = true
      problems.push(`${this.document}: update ${seq} cannot be read`)
      return false
    }
    const { pendingStructs, pendingDs } = this.#doc.store
    if (!this.#broken && (pendingStructs !== null || pendingDs !== null)) {
      this.#broken = true
      problems.push(`${this.document}: update ${seq} needs something that is not in the log`)
    }
    return !this.#broken
  }

  #compareStates(problems: string[]): void {
    for (let kept = this.#states[0]; kept !== undefined && kept.seq <= this.#last; kept = this.#states[0]) {
      this.#states.shift()
      if (kept.seq === this.#last && !this.#equals(kept.state))
        problems.push(`${this.document}: the ${kept.what} of number ${kept.seq} is not what the log makes`)
    }
  }

  #equals(state: Uint8Array): boolean {
    const copy = new Y.Doc()
    try {
      Y.applyUpdate(copy, state)
      return Y.equalSnapshots(Y.snapshot(copy), Y.snapshot(this.#doc))
    } catch {
      return false
    } finally {
      copy.destroy()
    }
  }

  #checkRecords(problems: string[]): void {
    const place = parseDocumentName(this.document)
    if (place === undefined) return
    for (const table of kindsIn(place.kind))
      for (const id of tableOf(this.#doc, table).keys()) {
        const raw = readRaw(this.#doc, table, id)
        const parsed = raw === undefined ? undefined : parseRecord(table, id, raw)
        if (parsed?.ok === false) problems.push(`${this.document}: ${table}/${id} does not have the form of its kind`)
        if (parsed?.ok && table === 'pictures') this.#pictures.name(place.caseId, id, (parsed.record as Picture).sha256)
      }
  }
}

async function ownersIn(reader: TableReader): Promise<Map<string, Map<number, string>>> {
  const owners = new Map<string, Map<number, string>>()
  for await (const [document, client, participant] of reader.rows(named('client_owners'), 'key')) {
    const known = owners.get(String(document)) ?? new Map<number, string>()
    owners.set(String(document), known.set(Number(client), String(participant)))
  }
  return owners
}

async function keptStatesIn(reader: TableReader): Promise<Map<string, KeptState[]>> {
  const states = new Map<string, KeptState[]>()
  for (const what of ['snapshot', 'checkpoint'] as const)
    for await (const [document, seq, bytes] of reader.rows(named(`${what}s`), 'key')) {
      const known = states.get(String(document)) ?? []
      known.push({ what, seq: Number(seq), state: bytes as Uint8Array })
      states.set(String(document), known)
    }
  return states
}

interface There {
  readonly cases: ReadonlySet<string>
  readonly lengths: ReadonlyMap<string, number>
}

async function checkBelongings(reader: TableReader, { cases, lengths }: There, problems: string[]): Promise<void> {
  for await (const [document, seq] of reader.rows(named('marks'), 'key'))
    if (Number(seq) > (lengths.get(String(document)) ?? 0))
      problems.push(`${document}: a mark of number ${seq}, which the log does not have`)
  for (const table of ['ballots', 'closed_votes', 'withdrawals', 'unnamed_authors'].map(named)) {
    const column = table.columns.indexOf('case_id')
    for await (const row of reader.rows(table, 'key'))
      if (!cases.has(String(row[column])))
        problems.push(`${table.name}: a row of case ${row[column]}, which is not there`)
  }
}

function named(name: string): Table {
  const found = tables.find((table) => table.name === name)
  if (found === undefined) throw new RangeError(`There is no table ${name}.`)
  return found
}
