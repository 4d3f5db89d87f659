import { openSqliteStore } from '../../server/store/sqlite-store.ts'

// Appends for ever, some at a time, and prints each sequence number only after the store has acknowledged it.
const [file = ''] = process.argv.slice(2)
const store = await openSqliteStore(file)
const entry = { document: 'record.a', author: 'anna', role: 'team', at: '2026-03-02T08:00:00.000Z' } as const
const together = 8

async function appendForEver(client: number): Promise<never> {
  for (let count = 0; ; count++) {
    const update = new Uint8Array(200).fill(count % 256)
    const [seq] = await store.append([{ ...entry, update, clients: [client] }])
    process.stdout.write(`${seq}\n`)
  }
}

await Promise.all(Array.from({ length: together }, (_, client) => appendForEver(client)))
