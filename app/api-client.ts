import type * as z from 'zod/mini'
import { ApiError, type ApiErrorCode } from '@/lib/interchange/api.ts'
import { likeApi, takeEarly } from './early-answers.ts'
import { pageLanguage } from './messages/page-language.ts'
import { messagesNow } from './messages/parts/everywhere.ts'
import { refusalsPart } from './messages/parts/refusals.ts'

/** An answer that the page asked for and did not get; `message` is a sentence for people. */
export class ApiFault extends Error {
  readonly code: ApiErrorCode | 'no-link' | 'unreadable'
  constructor(code: ApiFault['code'], message: string) {
    super(message)
    this.code = code
  }
}

interface Request {
  readonly method?: 'GET' | 'POST' | 'DELETE'
  readonly body?: unknown
  readonly signal?: AbortSignal
}

/**
 * Asks the server and parses its answer.
 * @throws ApiFault with a sentence that says what happened and what to do
 */
export async function askApi<S extends z.ZodMiniType>(
  path: `/api/${string}`,
  answer: S,
  request: Request = {},
): Promise<z.infer<S>> {
  const response = await send(path, request)
  const body: unknown = await response.json().catch(() => undefined)
  if (!response.ok) throw await faultOf(response.status, body)
  const parsed = answer.safeParse(body)
  if (!parsed.success) throw new ApiFault('unreadable', messagesNow().shell.unreadableAnswer)
  return parsed.data
}

/** Asks the server for bytes. @throws ApiFault */
export async function askBytes(path: `/api/${string}`, request: Request): Promise<Uint8Array> {
  const response = await send(path, request)
  if (!response.ok) throw await faultOf(response.status, await response.json().catch(() => undefined))
  return new Uint8Array(await response.arrayBuffer())
}

/** Asks the server for something that has no answer but success. @throws ApiFault */
export async function tellApi(path: `/api/${string}`, request: Request): Promise<void> {
  const response = await send(path, request)
  if (!response.ok) throw await faultOf(response.status, await response.json().catch(() => undefined))
}

async function send(path: string, { method = 'GET', body, signal }: Request): Promise<Response> {
  try {
    const early = method === 'GET' ? takeEarly(path) : undefined
    if (early !== undefined) return await early
    return await fetch(path, {
      method,
      ...likeApi,
      ...(body === undefined ? {} : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
      ...(signal === undefined ? {} : { signal }),
    })
  } catch (cause) {
    if (signal?.aborted) throw cause
    throw new ApiFault('no-link', messagesNow().shell.noLink)
  }
}

/** What an answer with a status of 400 or more says. */
export async function faultOf(status: number, body: unknown): Promise<ApiFault> {
  const parsed = ApiError.safeParse(body)
  if (!parsed.success) return new ApiFault('unreadable', messagesNow().shell.serverTrouble(status))
  const { code, message } = parsed.data.error
  return new ApiFault(code, await inPageLanguage(code, message))
}

/** The server writes English; a page that cannot fetch its own words for it shows those. */
async function inPageLanguage(code: ApiErrorCode, message: string): Promise<string> {
  const { refusals } = await refusalsPart.load(pageLanguage()).catch(() => ({ refusals: undefined }))
  return refusals?.ofRequest(code, message) ?? message
}

/** The sentence to show for whatever was thrown while asking. */
export const sentenceOfFault = (error: unknown): string =>
  error instanceof ApiFault ? error.message : messagesNow().shell.unreadableAnswer
