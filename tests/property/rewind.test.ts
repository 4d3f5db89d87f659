import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { decodeMomentState, encodeMomentState } from '../../lib/interchange/moment-state.ts'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'
import { checkpointEvery, type Store } from '../../server/store/store.ts'
import { randomFrom } from '../support/random.ts'
import { makeTemporaryFolder, removeFolder } from '../support/temporary-folder.ts'

/** A log of so many updates by three people: with checkpoints in one document, without in the other. */
const length = 2 * checkpointEvery + 700
const start = Date.parse('2026-03-02T08:00:00.000Z')
const documents = { kept: 'record.a', unkept: 'record.b' } as const

let folder: string
let store: Store
const log: { readonly update: Uint8Array; readonly at: string }[] = []

beforeAll(async () => {
  folder = await makeTemporaryFolder()
  store = await openSqliteStore(join(folder, 'store.db'))
  const random = randomFrom(7)
  const room = new Y.Doc()
  const writers = [new Y.Doc(), new Y.Doc(), new Y.Doc()]
  const snapshots: { seq: number; state: Uint8Array }[] = []
  let ms = start
  while (log.length < length) {
    const writer = writers[Math.floor(random() * writers.length)] as Y.Doc
    Y.applyUpdate(writer, Y.encodeStateAsUpdate(room, Y.encodeStateVector(writer)))
    const before = Y.encodeStateVector(writer)
    edit(writer, random)
    const update = Y.encodeStateAsUpdate(writer, before)
    Y.applyUpdate(room, update)
    // Several in one millisecond, as a burst is.
    ms += Math.floor(random() * 4)
    log.push({ update, at: new Date(ms).toISOString() })
    if (random() < 1 / 300) snapshots.push({ seq: log.length, state: Y.encodeStateAsUpdate(room) })
  }
  for (const document of Object.values(documents))
    await store.append(
      log.map(({ update, at }) => ({ document, update, at, author: 'anna', role: 'team' as const, clients: [] })),
    )
  for (const snapshot of snapshots) await store.saveSnapshot(documents.kept, snapshot)
}, 120_000)
afterAll(async () => {
  await store.close()
  await removeFolder(folder)
})

/** Fields of records that come, change and go, and a text that is typed and shortened. */
function edit(doc: Y.Doc, random: () => number): void {
  const table = doc.getMap<Y.Map<unknown>>('steps')
  const text = doc.getText('text')
  const id = `s${Math.floor(random() * 40)}`
  const record = table.get(id)
  if (random() < 0.4) text.insert(Math.floor(random() * (text.length + 1)), 'ab')
  else if (random() < 0.3 && text.length > 0) text.delete(Math.floor(random() * text.length), 1)
  else if (record === undefined) table.set(id, new Y.Map([['title', id]]))
  else if (random() < 0.2) table.delete(id)
  else record.set('title', String(random()))
}

const docOf = (updates: readonly Uint8Array[]): Y.Doc => {
  const doc = new Y.Doc()
  doc.transact(() => {
    for (const update of updates) Y.applyUpdate(doc, update)
  })
  return doc
}

const contentOf = (doc: Y.Doc) => ({ steps: doc.getMap('steps').toJSON(), text: doc.getText('text').toString() })

async function openedAt(document: string, at: string): Promise<Y.Doc> {
  const { snapshot, updates } = await store.loadAt(document, at)
  const record = [...(snapshot === null ? [] : [snapshot.state]), ...updates.map(({ update }) => update)]
  return docOf(decodeMomentState(encodeMomentState({ record, floor: [] })).record)
}

describe('the state at a moment', () => {
  it('[S7] is that of the first k updates, for any k, with and without checkpoints', { timeout: 120_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: length }), async (k) => {
        const { at } = log[k - 1] as (typeof log)[number]
        const last = log.findLastIndex((entry) => entry.at === at) + 1
        const replayed = docOf(log.slice(0, last).map(({ update }) => update))
        for (const document of Object.values(documents)) {
          const opened = await openedAt(document, at)
          expect([k, contentOf(opened)]).toEqual([k, contentOf(replayed)])
          expect(Y.equalSnapshots(Y.snapshot(opened), Y.snapshot(replayed))).toBe(true)
        }
      }),
      { numRuns: 25, examples: [[1], [length], [checkpointEvery], [checkpointEvery + 1]] },
    )
  })

  it('is opened from a checkpoint where there is one', async () => {
    const { snapshot, updates } = await store.loadAt(documents.kept, log.at(-1)?.at ?? '')
    expect(snapshot?.seq).toBeGreaterThanOrEqual(checkpointEvery)
    expect(updates.length).toBe(length - (snapshot?.seq ?? 0))
    expect((await store.loadAt(documents.unkept, log.at(-1)?.at ?? '')).snapshot).toBeNull()
  })

  it('travels as bytes that are refused when they are cut short or go on', () => {
    const state = { record: [Uint8Array.of(1, 2), new Uint8Array(300)], floor: [] }
    const bytes = encodeMomentState(state)
    expect(decodeMomentState(bytes)).toEqual(state)
    for (const wrong of [bytes.slice(0, -1), bytes.slice(0, 40), Uint8Array.of(...bytes, 0)])
      expect(() => decodeMomentState(wrong)).toThrow()
  })
})
