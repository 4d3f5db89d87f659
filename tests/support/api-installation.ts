import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import type { Role } from '../../lib/board/roles.ts'
import { createExchange } from '../../server/exchange/exchange.ts'
import { apiRoutes, createApi } from '../../server/http/api.ts'
import { originsOf } from '../../server/http/origin.ts'
import type { Route } from '../../server/http/routes.ts'
import { createThrottle } from '../../server/http/throttle.ts'
import { createLog } from '../../server/log.ts'
import { createMetrics } from '../../server/metrics/metrics.ts'
import { newId } from '../../server/people/identifiers.ts'
import { createPeople } from '../../server/people/people.ts'
import { sessionCookie } from '../../server/people/session-cookie.ts'
import { createSigner } from '../../server/people/signer.ts'
import { createPictures } from '../../server/pictures/pictures.ts'
import { Hub } from '../../server/room/hub.ts'
import { Series } from '../../server/series/series.ts'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'
import type { Scope, Store } from '../../server/store/store.ts'
import { createUnnamed } from '../../server/unnamed/unnamed.ts'
import { createVotes } from '../../server/votes/votes.ts'
import { createWithdrawals, type Withdrawals } from '../../server/withdrawals/withdrawals.ts'
import { makeTemporaryFolder, removeFolder } from './temporary-folder.ts'

/** The API of an installation of its own, on a real port over a real store, without pages and sockets. */
export interface ApiInstallation {
  readonly url: string
  readonly store: Store
  /** the database; its write-ahead log stands beside it */
  readonly file: string
  readonly hub: Hub
  readonly withdrawals: Withdrawals
  readonly routes: readonly Route[]
  /** everything that was logged */
  logged(): string
  /** Somebody who has joined. @returns their Cookie header */
  join(role: Role, scope: Scope, name?: string): Promise<string>
  get(path: string, cookie?: string): Promise<Response>
  post(path: string, body: unknown, cookie?: string): Promise<Response>
  /** Sends a file. */
  send(path: string, bytes: Uint8Array, cookie?: string): Promise<Response>
  stop(): Promise<void>
}

export async function startApiInstallation(now: () => Date): Promise<ApiInstallation> {
  const folder = await makeTemporaryFolder()
  const file = join(folder, 'store.db')
  const store = await openSqliteStore(file)
  const hub = new Hub(store, () => undefined)
  const people = createPeople({
    store,
    signer: createSigner(new Uint8Array(32).fill(7)),
    cookie: sessionCookie(false),
    now,
  })
  const withdrawals = createWithdrawals({ store, hub, now, newId })
  let logged = ''
  const log = createLog((line) => {
    logged += line
  }, now)
  const parts = {
    store,
    people,
    votes: createVotes({ store, hub, now }),
    withdrawals,
    unnamed: createUnnamed({ store, hub, now }),
    pictures: createPictures({ store, hub, now, newId }),
    exchange: createExchange({ store, hub, now, newId }),
    series: new Series(store, log),
    hasConsent: async () => true,
    origins: originsOf(undefined),
    throttle: createThrottle(() => now().getTime()),
    programmeChanged: () => undefined,
    now,
    log,
    metrics: createMetrics(),
    metricsToken: undefined,
    isClosing: () => false,
    canStore: () => true,
  }
  const api = createApi(parts)
  const server = createServer((request, response) => void api(request, response))
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  const change = (path: string, body: string | Uint8Array<ArrayBuffer>, type: string, cookie: string) =>
    fetch(url + path, { method: 'POST', headers: { cookie, origin: url, 'content-type': type }, body })
  return {
    url,
    store,
    file,
    hub,
    withdrawals,
    routes: apiRoutes(parts),
    logged: () => logged,
    join: async (role, scope, name = role) => {
      const { token } = await people.invite({ role, scope, label: name, expiresAt: null, accessUntil: null })
      const joined = await change(
        '/api/join',
        JSON.stringify({ token, name, affiliation: 'Clinic' }),
        'application/json',
        '',
      )
      return joined.headers.get('set-cookie')?.split(';')[0] ?? ''
    },
    get: (path, cookie = '') => fetch(url + path, { headers: { cookie } }),
    post: (path, body, cookie = '') => change(path, JSON.stringify(body), 'application/json', cookie),
    send: (path, bytes, cookie = '') => change(path, new Uint8Array(bytes), 'application/zip', cookie),
    stop: async () => {
      server.closeAllConnections()
      await new Promise((resolve) => server.close(resolve))
      await hub.close()
      await store.close()
      await removeFolder(folder)
    },
  }
}
