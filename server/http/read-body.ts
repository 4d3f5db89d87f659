import type { IncomingMessage } from 'node:http'

/** Largest body of an API request: names, labels and tokens; the records themselves go over the socket. */
export const bodyLimitBytes = 16 * 1024

export type ReadBody =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly code: 'too-large' | 'not-json' | 'bad-request' }

export type ReadFile = { readonly ok: true; readonly bytes: Uint8Array } | { readonly ok: false }

/** Reads a body of bytes, as far as the bound: what is larger is not read on. */
export async function readFile(request: IncomingMessage, mostBytes: number): Promise<ReadFile> {
  if (Number(request.headers['content-length'] ?? 0) > mostBytes) return { ok: false }
  const chunks: Buffer[] = []
  let size = 0
  for await (const chunk of request) {
    size += chunk.length
    if (size > mostBytes) return { ok: false }
    chunks.push(chunk)
  }
  return { ok: true, bytes: new Uint8Array(Buffer.concat(chunks)) }
}

/** Reads a JSON body of bounded size; no body reads as an empty object. */
export async function readJsonBody(request: IncomingMessage): Promise<ReadBody> {
  if (Number(request.headers['content-length'] ?? 0) > bodyLimitBytes) return { ok: false, code: 'too-large' }
  const chunks: Buffer[] = []
  let size = 0
  for await (const chunk of request) {
    size += chunk.length
    if (size > bodyLimitBytes) return { ok: false, code: 'too-large' }
    chunks.push(chunk)
  }
  if (size === 0) return { ok: true, value: {} }
  if (!/^application\/json\b/i.test(request.headers['content-type'] ?? '')) return { ok: false, code: 'not-json' }
  return parse(Buffer.concat(chunks).toString('utf8'))
}

function parse(text: string): ReadBody {
  try {
    return { ok: true, value: JSON.parse(text) }
  } catch {
    return { ok: false, code: 'bad-request' }
  }
}
