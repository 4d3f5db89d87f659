import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import { dataFiles } from './data-folder.ts'
import { lockDataDir } from './data-lock.ts'
import { type FirstLink, ownerLinks, programmeLinks } from './first-links.ts'
import { type Api, createApi, isApiPath } from './http/api.ts'
import { originsOf } from './http/origin.ts'
import { staticHeaders, transportSecurity } from './http/security-headers.ts'
import { createThrottle } from './http/throttle.ts'
import { listen } from './listen.ts'
import type { Log } from './log.ts'
import { openPages, type Pages } from './pages.ts'
import { createPeople } from './people/people.ts'
import { sessionCookie } from './people/session-cookie.ts'
import { createSigner, loadKey } from './people/signer.ts'
import { isSyncRequest, SyncEndpoint } from './room/sync-endpoint.ts'
import { localUrl, type Settings } from './settings.ts'
import { openSqliteStore } from './store/sqlite-store.ts'
import type { Store } from './store/store.ts'

/** An invented programme to try the board with. */
export interface Demo {
  /** Id of its programme, whether it has been written yet or not. */
  readonly programme: string
  seed(store: Store, now: Date): Promise<void>
}

export interface ServeOptions {
  readonly settings: Settings
  /** Folder of the project. */
  readonly root: string
  readonly development: boolean
  readonly log: Log
  readonly now: () => Date
  readonly demo: Demo | undefined
}

export interface Served {
  /** Where to open it: the public origin, or this computer's own address. */
  readonly url: string
  readonly links: readonly FirstLink[]
  close(): Promise<void>
}

interface Application {
  readonly api: Api
  readonly sync: SyncEndpoint
  readonly pages: Pages
  readonly links: readonly FirstLink[]
  readonly store: Store
}

/**
 * Starts the whole server on one port: API, sync sockets and pages. Requests that come early wait until all is open.
 * @throws CannotStart when port, address or data folder cannot be had; StoreOutage when the store cannot be opened
 */
export async function serve(options: ServeOptions): Promise<Served> {
  const { settings, log } = options
  const server = createServer()
  // The port comes first: it is what most often cannot be had, and nothing has been written yet.
  const port = await listen(server, settings.port, settings.host)
  const unlock = lockDataDir(settings.dataDir)
  const opening = openApplication(options, port)
  attach(server, opening, settings)
  const application = await opening
  const url = settings.origin ?? localUrl(settings.host, port)
  log.info('listening', { url, port })
  return {
    url,
    links: application.links,
    close: async () => {
      await closeAll(server, application)
      unlock()
    },
  }
}

async function openApplication(
  { settings, root, development, log, now, demo }: ServeOptions,
  port: number,
): Promise<Application> {
  const files = dataFiles(settings.dataDir)
  const store = await openSqliteStore(files.store)
  const signer = createSigner(await loadKey(files.key))
  const cookie = sessionCookie(isOverTls(settings))
  const people = createPeople({ store, signer, cookie, now })
  const origins = originsOf(settings.origin)
  const api = createApi({ store, people, origins, now, log, throttle: createThrottle(() => now().getTime()) })
  const sync = new SyncEndpoint({
    store,
    log: log.info,
    authenticate: people.authenticate,
    isOwnOrigin: ({ headers }) => origins.mayConnect(headers),
  })
  people.onRevoked((participant) => {
    sync.hub.expel(participant).catch((error: unknown) => log.error('expel-failed', error, { participant }))
  })
  const parts = { store, people, signer }
  const links = [...(await ownerLinks(parts)), ...(await demoLinks(parts, demo, now()))]
  const pages = await openPages({ root, development, host: settings.host, port, origins })
  return { api, sync, pages, links, store }
}

/** Writes the demo into an installation without programmes; one that was erased does not come back by itself. */
async function demoLinks(parts: Parameters<typeof programmeLinks>[0], demo: Demo | undefined, now: Date) {
  if (demo === undefined) return []
  if ((await parts.store.listProgrammes()).length === 0) await demo.seed(parts.store, now)
  const isThere = (await parts.store.listProgrammes()).some(({ id }) => id === demo.programme)
  return isThere ? programmeLinks(parts, demo.programme) : []
}

const isOverTls = ({ origin }: Settings): boolean => origin?.startsWith('https:') === true

function attach(server: Server, opening: Promise<Application>, settings: Settings): void {
  const headers = Object.entries({ ...staticHeaders, ...(isOverTls(settings) ? transportSecurity : {}) })
  const answer = async (request: IncomingMessage, response: ServerResponse) => {
    for (const [name, value] of headers) response.setHeader(name, value)
    const { api, pages } = await opening
    const path = (request.url ?? '/').split('?')[0] ?? '/'
    await (isApiPath(path) ? api(request, response) : pages.handle(request, response))
  }
  server.on('request', (request, response) => {
    // A start that fails is told by whoever waits for it; here only the connection has to end.
    answer(request, response).catch(() => response.destroy())
  })
  server.on('upgrade', (request, socket, head) => {
    // Without a listener one broken connection would end the process.
    socket.on('error', () => socket.destroy())
    opening.then(
      ({ sync, pages }) => {
        if (isSyncRequest(request)) sync.handleUpgrade(request, socket, head)
        else if (!pages.handleUpgrade(request, socket, head)) socket.destroy()
      },
      () => socket.destroy(),
    )
  })
}

async function closeAll(server: Server, { sync, pages, store }: Application): Promise<void> {
  const closed = new Promise((resolve) => server.close(resolve))
  await sync.close()
  server.closeAllConnections()
  await closed
  await pages.close()
  await store.close()
}
