import type { IncomingMessage, ServerResponse } from 'node:http'
import type { Log } from '../log.ts'
import type { People } from '../people/people.ts'
import { type Store, StoreConflict, StoreOutage } from '../store/store.ts'
import type { Origins } from './origin.ts'
import { readJsonBody } from './read-body.ts'
import { type Reply, refuse } from './reply.ts'
import { caseRoutes } from './routes/cases.ts'
import { healthRoutes } from './routes/health.ts'
import { invitationRoutes } from './routes/invitations.ts'
import { joiningRoutes } from './routes/joining.ts'
import { programmeRoutes } from './routes/programmes.ts'
import type { Route } from './routes.ts'
import { apiPolicy } from './security-headers.ts'
import type { Throttle } from './throttle.ts'

export interface ApiParts {
  readonly store: Store
  readonly people: People
  readonly origins: Origins
  readonly throttle: Throttle
  readonly now: () => Date
  readonly log: Log
}

/** Answers requests under /api and /healthz. */
export type Api = (request: IncomingMessage, response: ServerResponse) => Promise<void>

export const isApiPath = (path: string): boolean => path === '/healthz' || path === '/api' || path.startsWith('/api/')

export function createApi(parts: ApiParts): Api {
  const routes = [
    ...healthRoutes(parts),
    ...joiningRoutes(parts),
    ...programmeRoutes(parts),
    ...caseRoutes(parts),
    ...invitationRoutes(parts),
  ]
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
  const body = match.route.method === 'POST' ? await readChange(request, parts.origins) : { body: undefined }
  if ('refusal' in body) return body.refusal
  const caller = await parts.people.authenticate(request)
  return match.route.handle({ request, params: match.params, caller, body: body.body })
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
  response.writeHead(status, {
    'Content-Type': 'application/json; charset=utf-8',
    'Cache-Control': 'no-store',
    'Content-Security-Policy': apiPolicy,
    ...headers,
  })
  response.end(JSON.stringify(body))
}
