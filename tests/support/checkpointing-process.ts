import * as Y from 'yjs'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'

// Appends for ever, one letter an update, and saves a snapshot every so many; says before each that it is about to.
const [file = '', every = ''] = process.argv.slice(2)
const together = Number(every)
const document = 'record.a'
const start = Date.parse('2026-03-02T08:00:00.000Z')
const store = await openSqliteStore(file)
const found = await store.load(document)
const doc = new Y.Doc()
if (found.snapshot !== null) Y.applyUpdate(doc, found.snapshot.state)
for (const { update } of found.updates) Y.applyUpdate(doc, update)
let seq = found.updates.at(-1)?.seq ?? found.snapshot?.seq ?? 0
let made: Uint8Array[] = []
doc.on('update', (update: Uint8Array) => made.push(update))

for (;;) {
  made = []
  for (let count = 0; count < together; count++) doc.getText('text').insert(0, 'a')
  const entries = made.map((update, index) => ({
    document,
    update,
    author: 'anna',
    role: 'team' as const,
    at: new Date(start + seq + index + 1).toISOString(),
    clients: [],
  }))
  seq = (await store.append(entries)).at(-1) ?? seq
  process.stdout.write(`${seq}\n`)
  await store.saveSnapshot(document, { seq, state: Y.encodeStateAsUpdate(doc) })
}
