import { afterEach, beforeEach, expect, it } from 'vitest'
import * as Y from 'yjs'
import { annotate, changeAnnotation, removeAnnotation } from '../../lib/board/edits/hearing.ts'
import { readTable } from '../../lib/board/reading.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { LightClient } from '../support/light-client.ts'
import { randomFrom } from '../support/random.ts'
import { type SyncServer, startSyncServer } from '../support/sync-server.ts'

/** [G4] Frames that arrive twice, or in another order than they were written: FRAMES_SEED repeats a run. */
const seed = Number(process.env.FRAMES_SEED ?? Date.now() % 1_000_000)
const rounds = 12

let server: SyncServer
beforeEach(async () => {
  server = await startSyncServer()
})
afterEach(() => server.stop())

const open = (who: string, role: string) =>
  LightClient.join(`${server.url}/sync/record.c-1?as=${who}&role=${role}&own=1`)

/** A copy of somebody's own, and each edit in it as one update. */
class Writer {
  readonly doc = new Y.Doc()
  readonly updates: Uint8Array[] = []
  readonly #name: string
  readonly #random: () => number
  #made = 0

  constructor(name: string, random: () => number) {
    this.#name = name
    this.#random = random
    this.doc.on('update', (update: Uint8Array) => this.updates.push(update))
  }

  edit(): void {
    const pen = { participant: this.#name, now: () => new Date(), newId: () => `${this.#name}-${++this.#made}` }
    const own = readTable(this.doc, 'annotations')
    const chosen = own[Math.floor(this.#random() * own.length)]
    const act = this.#random()
    if (chosen === undefined || act < 0.5) {
      const place = { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) } as const
      annotate(this.doc, pen, { place, text: 'pin' })
    } else if (act < 0.85) changeAnnotation(this.doc, chosen.id, { text: `reworded ${act}` })
    else removeAnnotation(this.doc, chosen.id)
  }
}

function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const rest = [...items]
  return items.map(() => rest.splice(Math.floor(random() * rest.length), 1)[0] as T)
}

it(`end in the same board for everybody, each edit stored once (seed ${seed})`, async () => {
  const random = randomFrom(seed)
  const watcher = await open('p-mod', 'moderator')
  const writers = ['p-one', 'p-two'].map((name) => new Writer(name, random))
  const clients = await Promise.all([open('p-one', 'team'), open('p-two', 'team')])
  let refused = 0
  for (let round = 0; round < rounds; round++) {
    for (const [index, writer] of writers.entries()) {
      const from = writer.updates.length
      for (let edit = 0; edit < 6; edit++) writer.edit()
      const fresh = writer.updates.slice(from)
      const client = clients[index] as LightClient
      // All of them in any order, and some of all that ever was once more.
      const again = writer.updates.filter(() => random() < 0.2)
      const answers = await Promise.all(shuffled([...fresh, ...again], random).map((update) => client.send(update)))
      for (const answer of answers) {
        if (answer === 'stored') continue
        expect(answer.code).toBe('incomplete-update')
        refused += 1
      }
      // As a page does after a refusal: what the server lacks, in one.
      expect(await client.send(Y.encodeStateAsUpdate(writer.doc))).toBe('stored')
      expect(await client.send(Y.encodeStateAsUpdate(writer.doc))).toBe('stored')
    }
  }
  expect(refused).toBeGreaterThan(0)
  await watcher.ask()
  const truth = new Y.Doc()
  for (const { doc } of writers) Y.applyUpdate(truth, Y.encodeStateAsUpdate(doc))
  const { updates } = await server.store.load('record.c-1')
  const stored = new Y.Doc()
  for (const { update } of updates) {
    const before = Y.encodeStateAsUpdate(stored)
    Y.applyUpdate(stored, update)
    expect(Y.encodeStateAsUpdate(stored)).not.toEqual(before)
  }
  for (const doc of [watcher.doc, stored]) expect(Y.equalSnapshots(Y.snapshot(doc), Y.snapshot(truth))).toBe(true)
  for (const client of [watcher, ...clients]) client.close()
})
