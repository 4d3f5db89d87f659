import { documentName } from '@/lib/board/documents.ts'
import type { CaseId } from '@/lib/board/identity.ts'
import type { DocumentKind } from '@/lib/board/records.ts'

/** Nobody wants to speak any more on a socket that was opened so long ago. */
const unwantedMs = 30_000

/** A socket that was opened before its document was there, and what the server has said on it since. */
interface EarlyCall {
  readonly socket: WebSocket
  readonly heard: MessageEvent[]
  readonly expiry: ReturnType<typeof setTimeout>
}

const calls = new Map<string, EarlyCall>()

/** `own=1`: the page understands our own messages beside those of y-protocols. */
export const syncParams = { own: '1' }
export const syncServer = (): string => `${location.protocol === 'https:' ? 'wss' : 'ws'}://${location.host}/sync`

/** Where the socket of a document leads to, as the provider writes it. */
export const syncAddress = (server: string, kind: DocumentKind, caseId: CaseId): string =>
  `${server}/${documentName(kind, caseId)}?${new URLSearchParams(syncParams)}`

/** Opens a socket before whoever speaks on it has been loaded: until then the server's greeting is kept. */
export function callEarly(address: string): void {
  const socket = new WebSocket(address)
  socket.binaryType = 'arraybuffer'
  const heard: MessageEvent[] = []
  socket.onmessage = (event) => heard.push(event)
  const expiry = setTimeout(() => {
    if (calls.delete(address)) socket.close()
  }, unwantedMs)
  calls.set(address, { socket, heard, expiry })
}

/**
 * The socket that was opened early to this address, for the first who asks, as if it had just been made: what happened on
 * it happens again as soon as its new owner has set up to listen. Undefined when there is none that still lives.
 */
export function takeEarlyCall(address: string): WebSocket | undefined {
  const call = calls.get(address)
  if (call === undefined) return undefined
  calls.delete(address)
  clearTimeout(call.expiry)
  const { socket, heard } = call
  if (socket.readyState >= socket.CLOSING) return undefined
  // Everything heard so far is told before the browser can tell of anything new.
  if (socket.readyState === socket.OPEN)
    queueMicrotask(() => {
      socket.onopen?.(new Event('open'))
      for (const event of heard) socket.onmessage?.(event)
    })
  return socket
}
