import { stat } from 'node:fs/promises'
import { join } from 'node:path'
import * as Y from 'yjs'
import { decodeMomentState, encodeMomentState } from '../../lib/interchange/moment-state.ts'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'
import { documentsOfCase, type StateAt, type Store } from '../../server/store/store.ts'
import { randomFrom } from '../support/random.ts'
import { SessionWriter, sessionStart } from '../support/session-writer.ts'
import { makeTemporaryFolder, removeFolder } from '../support/temporary-folder.ts'

/**
 * Opens 50 random moments of a session of 3 hours and 50,000 updates: read from the store, framed, unframed and applied to two
 * new documents, with every record of them read. Limit: 300 ms. Beside it the same without checkpoints, in turns, and the
 * processor's time, because the machine is shared. Run: npx tsx tests/bench/rewind.ts
 */
const updates = 50_000
const moments = 50
const sessionMs = 3 * 3_600_000
const variants = { 'with checkpoints': 'kept', without: 'unkept' } as const

const folder = await makeTemporaryFolder()
const file = join(folder, 'store.db')
const store = await openSqliteStore(file)
try {
  const random = randomFrom(50)
  const writer = new SessionWriter(random, sessionMs / updates)
  const logBytes = await writeSession(writer)
  console.log(
    `log ${mega(logBytes)}, file ${mega((await stat(file)).size)}, states ${writer.stateBytes().map(mega).join(' and ')}`,
  )
  const took = new Map<string, Opening[]>()
  for (let count = 0; count < moments; count++) {
    const at = new Date(sessionStart + random() * sessionMs).toISOString()
    for (const [name, caseId] of Object.entries(variants))
      took.set(name, [...(took.get(name) ?? []), await open(caseId, at)])
  }
  for (const [name, openings] of took) report(name, openings)
} finally {
  await store.close()
  await removeFolder(folder)
}

/** The same log for both; snapshots as a room writes them, every 500 updates, for the one that keeps checkpoints. */
async function writeSession(writer: SessionWriter): Promise<number> {
  let bytes = 0
  for (let written = 0; written < updates; written += 500) {
    const entries = writer.write(500)
    for (const caseId of Object.values(variants))
      await store.append(entries.map(({ kind, ...entry }) => ({ ...entry, document: `${kind}.${caseId}` })))
    for (const { kind, seq, state } of writer.snapshots())
      await store.saveSnapshot(`${kind}.${variants['with checkpoints']}`, { seq, state })
    bytes += entries.reduce((sum, { update }) => sum + update.length, 0)
  }
  return bytes
}

interface Opening {
  readonly wallMs: number
  readonly processorMs: number
}

async function open(caseId: string, at: string): Promise<Opening> {
  const [begun, used] = [performance.now(), process.cpuUsage()]
  const [record, floor] = await Promise.all(documentsOfCase(caseId).map((document) => read(store, document, at)))
  const state = decodeMomentState(encodeMomentState({ record: record ?? [], floor: floor ?? [] }))
  const records = [docOf(state.record), docOf(state.floor)].flatMap(SessionWriter.everyRecord)
  const { user, system } = process.cpuUsage(used)
  if (records.length === 0) throw new Error(`nothing stood at ${at}`)
  return { wallMs: performance.now() - begun, processorMs: (user + system) / 1000 }
}

async function read(from: Store, document: string, at: string): Promise<readonly Uint8Array[]> {
  const { snapshot, updates }: StateAt = await from.loadAt(document, at)
  return [...(snapshot === null ? [] : [snapshot.state]), ...updates.map(({ update }) => update)]
}

function docOf(state: readonly Uint8Array[]): Y.Doc {
  const doc = new Y.Doc()
  doc.transact(() => {
    for (const update of state) Y.applyUpdate(doc, update)
  })
  return doc
}

function report(name: string, openings: readonly Opening[]): void {
  const spread = (of: keyof Opening) => {
    const sorted = openings.map((opening) => opening[of]).sort((a, b) => a - b)
    const at = (part: number) => `${(sorted[Math.ceil(sorted.length * part) - 1] ?? 0).toFixed(0)} ms`
    return `median ${at(0.5)}, nine of ten ${at(0.9)}, worst ${at(1)}`
  }
  console.log(`${name.padEnd(18)} ${spread('wallMs')}; processor ${spread('processorMs')}`)
}

function mega(bytes: number): string {
  return `${(bytes / 1_000_000).toFixed(1)} MB`
}
