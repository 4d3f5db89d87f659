import type { IncomingMessage, ServerResponse } from 'node:http'
import type { Exchange } from '../exchange/exchange.ts'
import type { Log } from '../log.ts'
import type { Metrics } from '../metrics/metrics.ts'
import type { People } from '../people/people.ts'
import type { Pictures } from '../pictures/pictures.ts'
import type { Series } from '../series/series.ts'
import { type Store, StoreConflict, StoreOutage } from '../store/store.ts'
import type { Unnamed } from '../unnamed/unnamed.ts'
import type { Votes } from '../votes/votes.ts'
import type { Withdrawals } from '../withdrawals/withdrawals.ts'
import type { Origins } from './origin.ts'
import { readFile, readJsonBody } from './read-body.ts'
import { logRefusal } from './refusal-log.ts'
import { type Reply, refuse } from './reply.ts'
import { caseDataRoutes } from './routes/case-data.ts'
import { caseRoutes } from './routes/cases.ts'
import { clockRoutes } from './routes/clock.ts'
import { erasureRoutes } from './routes/erasures.ts'
import { exchangeRoutes } from './routes/exchange.ts'
import { healthRoutes } from './routes/health.ts'
import { invitationRoutes } from './routes/invitations.ts'
import { joiningRoutes } from './routes/joining.ts'
import { openApiRoutes } from './routes/openapi.ts'
import { pictureRoutes } from './routes/pictures.ts'
import { programmeRoutes } from './routes/programmes.ts'
import { rewindRoutes } from './routes/rewind.ts'
import { seriesRoutes } from './routes/series.ts'
import { unnamedRoutes } from './routes/unnamed.ts'
import { voteRoutes } from './routes/votes.ts'
import { withdrawalRoutes } from './routes/withdrawals.ts'
import type { FileBody, Route, Upload } from './routes.ts'
import { apiPolicy } from './security-headers.ts'
import type { Throttle } from './throttle.ts'

export interface ApiParts {
  readonly store: Store
  readonly people: People
  readonly votes: Votes
  readonly withdrawals: Withdrawals
  readonly unnamed: Unnamed
  readonly pictures: Pictures
  readonly exchange: Exchange
  readonly series: Series
  readonly origins: Origins
  readonly throttle: Throttle
  /** Whether the patient's consent to broadcasting is recorded in the case. */
  readonly hasConsent: (caseId: string) => Promise<boolean>
  /** Called when order, times or what is on have changed in a programme. */
  readonly programmeChanged: (programme: string) => void
  readonly now: () => Date
  readonly log: Log
  readonly metrics: Pick<Metrics, 'text' | 'contentType'>
  /** What a request for the metrics has to carry; without one they are for this computer alone. */
  readonly metricsToken: string | undefined
  /** Whether the process is about to end. */
  readonly isClosing: () => boolean
  /** Whether an edit would be stored, as far as the last one tells. */
  readonly canStore: () => boolean
}

/** Answers requests under /api, and of whoever watches the server. */
export type Api = (request: IncomingMessage, response: ServerResponse) => Promise<void>

const watchPaths: readonly string[] = ['/healthz', '/readyz', '/metrics']

export const isApiPath = (path: string): boolean =>
  watchPaths.includes(path) || path === '/api' || path.startsWith('/api/')

/** Every route of the API, in the order in which they are tried. */
export function apiRoutes(parts: ApiParts): readonly Route[] {
  return openApiRoutes([
    ...healthRoutes(parts),
    ...clockRoutes(parts),
    ...joiningRoutes(parts),
    ...programmeRoutes(parts),
    ...caseRoutes(parts),
    ...voteRoutes(parts),
    ...unnamedRoutes(parts),
    ...pictureRoutes(parts),
    ...rewindRoutes(parts),
    ...seriesRoutes(parts),
    ...withdrawalRoutes(parts),
    ...invitationRoutes(parts),
    ...exchangeRoutes(parts),
    ...erasureRoutes(parts),
    ...caseDataRoutes(parts),
  ])
}

export function createApi(parts: ApiParts): Api {
  const routes = apiRoutes(parts)
  return async (request, response) => {
    try {
      send(response, await answer(request, routes, parts))
    } catch (error) {
      send(response, replyToError(error, parts.log))
    }
  }
}

async function answer(request: IncomingMessage, routes: readonly Route[], parts: ApiParts): Promise<Reply> {
  const { pathname } = new URL(request.url ?? '/', 'http://localhost')
  const matches = routes.flatMap((route) => {
    const params = matchPath(route.pattern, pathname)
    return params === undefined ? [] : [{ route, params }]
  })
  if (matches.length === 0) return refuse('not-found')
  const match = matches.find(({ route }) => route.method === request.method)
  if (match === undefined) return methodNotAllowed(matches.map(({ route }) => route.method))
  const { takesFile } = match.route
  if (takesFile !== undefined) return answerUpload(request, match, takesFile, parts)
  const body = match.route.method === 'POST' ? await readChange(request, parts.origins) : { body: undefined }
  if ('refusal' in body) {
    logRefusal(parts.log, match.route.pattern, undefined, body.refusal)
    return body.refusal
  }
  const isWatch = watchPaths.includes(pathname)
  const caller = isWatch ? undefined : await parts.people.authenticate(request)
  const reply = await match.route.handle({ request, params: match.params, caller, body: body.body })
  logRefusal(parts.log, match.route.pattern, caller, reply)
  return reply
}

async function answerUpload(
  request: IncomingMessage,
  { route, params }: { readonly route: Route; readonly params: Record<string, string> },
  { mostBytes }: FileBody,
  { origins, people, log }: ApiParts,
): Promise<Reply> {
  if (!origins.mayChange(request.headers)) return refuse('cross-site')
  const caller = await people.authenticate(request)
  const body: Upload = { read: () => readFile(request, mostBytes) }
  const reply = await route.handle({ request, params, caller, body })
  logRefusal(log, route.pattern, caller, reply)
  return request.complete ? reply : { ...reply, headers: { ...reply.headers, Connection: 'close' } }
}

async function readChange(request: IncomingMessage, origins: Origins) {
  if (!origins.mayChange(request.headers)) return { refusal: refuse('cross-site') }
  const read = await readJsonBody(request)
  // What is left of an oversized body would be taken for the next request of the connection.
  return read.ok ? { body: read.value } : { refusal: { ...refuse(read.code), headers: { Connection: 'close' } } }
}

const methodNotAllowed = (methods: readonly string[]): Reply => ({
  ...refuse('method-not-allowed'),
  headers: { Allow: methods.join(', ') },
})

/** @returns the values of the pattern's `:names`, or undefined when the path is another */
export function matchPath(pattern: string, path: string): Record<string, string> | undefined {
  const wanted = pattern.split('/')
  const given = path.split('/')
  if (wanted.length !== given.length) return undefined
  const params: Record<string, string> = {}
  for (const [index, segment] of wanted.entries()) {
    const value = given[index] ?? ''
    if (segment.startsWith(':') && value !== '') params[segment.slice(1)] = value
    else if (segment !== value) return undefined
  }
  return params
}

function replyToError(error: unknown, log: Log): Reply {
  if (error instanceof StoreConflict) return refuse('conflict')
  log.error('api-failed', error)
  return refuse(error instanceof StoreOutage ? 'unavailable' : 'internal')
}

function send(response: ServerResponse, { status, body, headers }: Reply): void {
  const bytes = body instanceof Uint8Array
  response.writeHead(status, {
    'Content-Type': bytes ? 'application/octet-stream' : 'application/json; charset=utf-8',
    'Cache-Control': 'no-store',
    'Content-Security-Policy': apiPolicy,
    ...headers,
  })
  response.end(bytes ? body : JSON.stringify(body))
}
