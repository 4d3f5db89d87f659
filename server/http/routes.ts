import type { IncomingMessage } from 'node:http'
import { z } from 'zod'
import type { Caller } from '../people/people.ts'
import type { ReadFile } from './read-body.ts'
import { type Reply, refuse } from './reply.ts'

export interface Ask<Body = unknown, Who = Caller | undefined> {
  readonly request: IncomingMessage
  readonly params: Readonly<Record<string, string>>
  readonly caller: Who
  readonly body: Body
}

type Handle<Body, Who> = (ask: Ask<Body, Who>) => Promise<Reply>

/** One row of the API's table. A pattern's `:name` matches one segment of the path. */
export interface Route {
  readonly method: 'GET' | 'POST'
  readonly pattern: string
  readonly handle: Handle<unknown, Caller | undefined>
  /** what a change carries; absent where the address says everything */
  readonly body?: z.core.$ZodType
  /** the body is a file of bytes, which the handler reads once it knows that it may */
  readonly takesFile?: FileBody
}

/** What sort of file a request brings, and how large it may be. */
export interface FileBody {
  readonly types: readonly string[]
  readonly mostBytes: number
  /** headers that say something of it */
  readonly headers?: readonly { readonly name: string; readonly description: string }[]
}

/** A file on its way: nothing of it is in memory before somebody asks. */
export interface Upload {
  read(): Promise<ReadFile>
}

type Guard<Who> = <Body>(handle: Handle<Body, Who>) => Handle<Body, Caller | undefined>

export const anyone: Guard<Caller | undefined> = (handle) => handle

export const signedIn: Guard<Caller> = (handle) => async (ask) =>
  ask.caller === undefined ? refuse('not-signed-in') : handle({ ...ask, caller: ask.caller })

export const owner: Guard<Caller> = (handle) =>
  signedIn(async (ask) => (ask.caller.isOwner ? handle(ask) : refuse('not-permitted')))

export function get<Who>(pattern: string, guard: Guard<Who>, handle: Handle<unknown, Who>): Route {
  return { method: 'GET', pattern, handle: guard(handle) }
}

/** A request that changes something; its body is parsed before anything else looks at it. */
export function post<Who, Body>(
  pattern: string,
  guard: Guard<Who>,
  schema: z.core.$ZodType<Body>,
  handle: Handle<Body, Who>,
): Route {
  const guarded = guard(handle)
  return {
    method: 'POST',
    pattern,
    body: schema,
    handle: async (ask) => {
      const parsed = z.safeParse(schema, ask.body)
      return parsed.success ? guarded({ ...ask, body: parsed.data }) : refuse('bad-request', faultsIn(parsed.error))
    },
  }
}

/** A request that brings a file. Rights are the handler's to judge before it reads. */
export function upload<Who>(
  pattern: string,
  guard: Guard<Who>,
  takesFile: FileBody,
  handle: Handle<Upload, Who>,
): Route {
  return { method: 'POST', pattern, takesFile, handle: guard(handle) as Route['handle'] }
}

/** The body of a request that says everything by its address. */
export const emptyBody = z.strictObject({})

const faultsIn = (error: z.core.$ZodError): string =>
  error.issues.map(({ path, message }) => (path.length === 0 ? message : `${path.join('.')}: ${message}`)).join('; ')
