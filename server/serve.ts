import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import { documentName } from '../lib/board/documents.ts'
import { onlyId, type ParticipantId } from '../lib/board/identity.ts'
import { dataFiles } from './data-folder.ts'
import { createExchange } from './exchange/exchange.ts'
import { type FirstLink, ownerLinks, programmeLinks } from './first-links.ts'
import { type Api, createApi, isApiPath } from './http/api.ts'
import { originsOf } from './http/origin.ts'
import { staticHeaders, transportSecurity } from './http/security-headers.ts'
import { createThrottle } from './http/throttle.ts'
import { type Keeper, openKeeper } from './keeper.ts'
import { listen } from './listen.ts'
import type { Log } from './log.ts'
import { FollowEndpoint, isFollowRequest } from './meeting/follow-endpoint.ts'
import { createMetrics } from './metrics/metrics.ts'
import { shareWith } from './nodes/share.ts'
import { openPages, type Pages } from './pages.ts'
import { newId } from './people/identifiers.ts'
import { createPeople } from './people/people.ts'
import { sessionCookie } from './people/session-cookie.ts'
import { createSigner, loadKey } from './people/signer.ts'
import { createPictures } from './pictures/pictures.ts'
import type { Hub } from './room/hub.ts'
import { isSyncRequest, SyncEndpoint } from './room/sync-endpoint.ts'
import { fillOutcomes } from './series/fill-outcomes.ts'
import { Series } from './series/series.ts'
import { localUrl, type Settings } from './settings.ts'
import type { Store } from './store/store.ts'
import { createUnnamed } from './unnamed/unnamed.ts'
import { createVotes } from './votes/votes.ts'
import { createWithdrawals } from './withdrawals/withdrawals.ts'

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
  readonly keeper: Keeper
  readonly api: Api
  readonly sync: SyncEndpoint
  readonly follow: FollowEndpoint
  readonly pages: Pages
  readonly links: readonly FirstLink[]
  /** Resolves when nothing is read for the series any more; nothing new is begun once the process is closing. */
  readonly filling: Promise<void>
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
  const life: Life = { isClosing: false, answering: 0 }
  const opening = openApplication(options, port, life)
  attach(server, opening, settings, life)
  const application = await opening
  const url = settings.origin ?? localUrl(settings.host, port)
  log.info('listening', { url, port })
  return {
    url,
    links: application.links,
    close: () => closeAll(server, application, life),
  }
}

/** What the parts of a process that ends have to know of it. */
interface Life {
  isClosing: boolean
  /** requests that have no answer yet */
  answering: number
}

async function openApplication(
  { settings, root, development, log, now, demo }: ServeOptions,
  port: number,
  life: Life,
): Promise<Application> {
  const keeper = await openKeeper(settings)
  const { store, neighbours } = keeper
  const key = await loadKey(dataFiles(settings.dataDir).key)
  await keeper.agreeOnKey(key)
  const signer = createSigner(key)
  const cookie = sessionCookie(isOverTls(settings))
  const people = createPeople({ store, signer, cookie, now })
  const origins = originsOf(settings.origin)
  const metrics = createMetrics()
  const socketParts = {
    store,
    neighbours,
    meter: metrics.meter,
    log: log.info,
    authenticate: people.authenticate,
    isOwnOrigin: ({ headers }: IncomingMessage) => origins.mayConnect(headers),
  }
  const sync = new SyncEndpoint(socketParts)
  const follow = new FollowEndpoint(socketParts)
  const hub = sync.hub
  const withdrawals = createWithdrawals({ store, hub, now, newId })
  // Two processes that start at once must not both do it.
  await keeper.alone(() => withdrawals.resume())
  const expel = (participant: ParticipantId) => {
    follow.expel(participant)
    sync.hub.expel(participant).catch((error: unknown) => log.error('expel-failed', error, { participant }))
  }
  const shared = shareWith(neighbours, {
    expel,
    programmeChanged: (programme) => follow.changed(programme),
    throttle: createThrottle(() => performance.now()),
  })
  people.onRevoked(shared.expel)
  metrics.watch({
    sockets: () => sync.connections,
    followers: () => follow.size,
    rooms: () => sync.hub.size,
    isInTouch: () => neighbours.inTouch,
  })
  const series = new Series(store, log)
  const api = createApi({
    store,
    people,
    votes: createVotes({ store, hub, now }),
    withdrawals,
    unnamed: createUnnamed({ store, hub, now }),
    pictures: createPictures({ store, hub, now, newId }),
    exchange: createExchange({ store, hub, now, newId }),
    hasConsent: consentIn(hub),
    series,
    origins,
    now,
    log,
    throttle: shared.throttle,
    programmeChanged: shared.programmeChanged,
    metrics,
    metricsToken: settings.metricsToken,
    isClosing: () => life.isClosing,
    canStore: () => hub.canStore,
  })
  const filling = fillOutcomes(store, () => life.isClosing)
    .then(() => (life.isClosing ? undefined : series.warm()))
    .catch((error: unknown) => log.error('series-not-filled', error))
  const parts = { store, people, signer }
  // Two processes that start at once must not both write the demo, or make the same links.
  const links = await keeper.alone(async () => [...(await ownerLinks(parts)), ...(await demoLinks(parts, demo, now()))])
  const pages = await openPages({ root, development, host: settings.host, port, origins })
  return { keeper, api, sync, follow, pages, links, filling }
}

/** As the record says it now, and not as the list does a moment later. */
const consentIn =
  (hub: Hub) =>
  async (caseId: string): Promise<boolean> => {
    const room = await hub.visit(documentName('record', caseId))
    return room.tables.get('header', onlyId)?.consent?.state === 'recorded'
  }

/** Writes the demo into an installation without programmes; one that was erased does not come back by itself. */
async function demoLinks(parts: Parameters<typeof programmeLinks>[0], demo: Demo | undefined, now: Date) {
  if (demo === undefined) return []
  if ((await parts.store.listProgrammes()).length === 0) await demo.seed(parts.store, now)
  const isThere = (await parts.store.listProgrammes()).some(({ id }) => id === demo.programme)
  return isThere ? programmeLinks(parts, demo.programme) : []
}

const isOverTls = ({ origin }: Settings): boolean => origin?.startsWith('https:') === true

function attach(server: Server, opening: Promise<Application>, settings: Settings, life: Life): void {
  const headers = Object.entries({ ...staticHeaders, ...(isOverTls(settings) ? transportSecurity : {}) })
  const answer = async (request: IncomingMessage, response: ServerResponse) => {
    for (const [name, value] of headers) response.setHeader(name, value)
    if (life.isClosing) response.setHeader('Connection', 'close')
    const { api, pages } = await opening
    const path = (request.url ?? '/').split('?')[0] ?? '/'
    await (isApiPath(path) ? api(request, response) : pages.handle(request, response))
  }
  server.on('request', (request, response) => {
    life.answering += 1
    response.once('close', () => {
      life.answering -= 1
    })
    // A start that fails is told by whoever waits for it; here only the connection has to end.
    answer(request, response).catch(() => response.destroy())
  })
  server.on('upgrade', (request, socket, head) => {
    // Without a listener one broken connection would end the process.
    socket.on('error', () => socket.destroy())
    opening.then(
      ({ sync, follow, pages }) => {
        if (isSyncRequest(request)) sync.handleUpgrade(request, socket, head)
        else if (isFollowRequest(request)) follow.handleUpgrade(request, socket, head)
        else if (!pages.handleUpgrade(request, socket, head)) socket.destroy()
      },
      () => socket.destroy(),
    )
  })
}

/** How long requests that have come in may take when the process ends. */
const answeringMs = 5_000

/** Takes nobody in any more, finishes what has come in, sends everybody to the next process, and only then lets go. */
async function closeAll(
  server: Server,
  { keeper, sync, follow, pages, filling }: Application,
  life: Life,
): Promise<void> {
  life.isClosing = true
  const closed = new Promise((resolve) => server.close(resolve))
  const patience = setTimeout(() => server.closeAllConnections(), answeringMs)
  await Promise.all([follow.close(), sync.close()])
  if (life.answering === 0) server.closeAllConnections()
  await closed
  clearTimeout(patience)
  await pages.close()
  await filling
  await keeper.close()
}
