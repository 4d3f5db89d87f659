import type { z } from 'zod'
import { ApiError, type ApiErrorCode } from '@/lib/interchange/api.ts'
import { messages } from './messages/en.ts'

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
export async function askApi<S extends z.ZodType>(
  path: `/api/${string}`,
  answer: S,
  request: Request = {},
): Promise<z.infer<S>> {
  const response = await send(path, request)
  const body: unknown = await response.json().catch(() => undefined)
  if (!response.ok) throw faultOf(response.status, body)
  const parsed = answer.safeParse(body)
  if (!parsed.success) throw new ApiFault('unreadable', messages.shell.unreadableAnswer)
  return parsed.data
}

/** Asks the server for something that has no answer but success. @throws ApiFault */
export async function tellApi(path: `/api/${string}`, request: Request): Promise<void> {
  const response = await send(path, request)
  if (!response.ok) throw faultOf(response.status, await response.json().catch(() => undefined))
}

async function send(path: string, { method = 'GET', body, signal }: Request): Promise<Response> {
  try {
    return await fetch(path, {
      method,
      credentials: 'same-origin',
      cache: 'no-store',
      ...(body === undefined ? {} : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
      ...(signal === undefined ? {} : { signal }),
    })
  } catch (cause) {
    if (signal?.aborted) throw cause
    throw new ApiFault('no-link', messages.shell.noLink)
  }
}

function faultOf(status: number, body: unknown): ApiFault {
  const parsed = ApiError.safeParse(body)
  if (!parsed.success) return new ApiFault('unreadable', messages.shell.serverTrouble(status))
  return new ApiFault(parsed.data.error.code, parsed.data.error.message)
}

/** The sentence to show for whatever was thrown while asking. */
export const sentenceOfFault = (error: unknown): string =>
  error instanceof ApiFault ? error.message : messages.shell.unreadableAnswer
