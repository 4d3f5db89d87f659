import { mkdtemp, rm } from 'node:fs/promises'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Worker } from 'node:worker_threads'
import * as Y from 'yjs'
import { Role } from '../../lib/board/roles.ts'
import { SyncEndpoint } from '../../server/room/sync-endpoint.ts'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'
import type { Store } from '../../server/store/store.ts'

/** The sync endpoint on a real port over a real store, with the sender's name and role taken from the address. */
export interface SyncServer {
  readonly url: string
  readonly store: Store
  readonly endpoint: SyncEndpoint
  /** Events that the log was told of. */
  readonly logged: readonly string[]
  /** From now on this person has another role than their address says; undefined gives that one back. */
  giveRole(participant: string, role: Role | undefined): void
  /** Puts a state into a document's log before anybody opens it. */
  seed(document: string, doc: Y.Doc): Promise<void>
  stop(): Promise<void>
}

/**
 * @param around what stands between the rooms and their store, to hold or to fail some of its calls
 * @param startThread another thread for the database than the usual one
 */
export async function startSyncServer(
  around: (store: Store) => Store = (store) => store,
  startThread?: (file: string) => Worker,
): Promise<SyncServer> {
  const folder = await mkdtemp(join(tmpdir(), 'promontory-sync-'))
  const store = around(await openSqliteStore(join(folder, 'board.sqlite'), startThread))
  const logged: string[] = []
  const roles = new Map<string, Role | undefined>()
  const endpoint = new SyncEndpoint({
    store,
    log: (event) => void logged.push(event),
    isOwnOrigin: () => true,
    authenticate: async (request) => {
      const query = new URL(request.url ?? '/', 'http://localhost').searchParams
      const participant = { id: query.get('as') ?? 'nobody', name: query.get('as') ?? 'nobody', affiliation: '' }
      return {
        participant,
        session: participant.id,
        roleIn: async () => roles.get(participant.id) ?? Role.safeParse(query.get('role')).data,
      }
    },
  })
  const server = createServer()
  server.on('upgrade', (request, socket, head) => endpoint.handleUpgrade(request, socket, head))
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return {
    url: `ws://127.0.0.1:${(server.address() as AddressInfo).port}`,
    store,
    endpoint,
    logged,
    giveRole: (participant, role) => void roles.set(participant, role),
    seed: async (document, doc) => {
      const entry = {
        document,
        update: Y.encodeStateAsUpdate(doc),
        author: 'seed',
        role: 'moderator' as const,
        at: new Date().toISOString(),
        clients: [doc.clientID],
      }
      await store.append([entry])
    },
    stop: async () => {
      await endpoint.close()
      await new Promise((resolve) => server.close(resolve))
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
