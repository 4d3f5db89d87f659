import type { IncomingMessage } from 'node:http'
import type { Duplex } from 'node:stream'
import { type WebSocket, WebSocketServer } from 'ws'
import { parseDocumentName } from '../../lib/board/documents.ts'
import type { Role } from '../../lib/board/roles.ts'
import { closeCode } from '../../lib/board/wire.ts'
import type { Store } from '../store/store.ts'
import { Hub, type Log } from './hub.ts'
import { limits } from './limits.ts'
import type { Entry } from './session.ts'

/** Who makes a request, however they proved it; the role is read anew for each case. */
export interface Caller {
  readonly participant: { readonly id: string; readonly name: string; readonly affiliation: string }
  /** null for a ticket: judged once, when the socket opens */
  readonly session: string | null
  roleIn(caseId: string): Promise<Role | undefined>
}

export interface SyncEndpointOptions {
  readonly store: Store
  readonly log: Log
  authenticate(request: IncomingMessage): Promise<Caller | undefined>
  /** Whether a browser may connect from the page it names; requests without Origin come from other programs. */
  isOwnOrigin(request: IncomingMessage): boolean
}

export const syncPath = '/sync/'

export const isSyncRequest = (request: IncomingMessage): boolean => request.url?.startsWith(syncPath) === true

/** The WebSocket side of the server: `/sync/<document>`, one socket a document and page. */
export class SyncEndpoint {
  readonly hub: Hub
  private readonly options: SyncEndpointOptions
  private readonly server = new WebSocketServer({
    noServer: true,
    maxPayload: limits.frameBytes,
    perMessageDeflate: false,
  })

  constructor(options: SyncEndpointOptions) {
    this.options = options
    this.hub = new Hub(options.store, options.log)
  }

  get connections(): number {
    return this.server.clients.size
  }

  handleUpgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void {
    // Without a listener one broken connection would end the process.
    socket.on('error', () => socket.destroy())
    this.admit(request, socket, head).catch((error: unknown) => {
      this.options.log('sync-refused', { problem: error instanceof Error ? error.message : String(error) })
      refuseUpgrade(socket, '503 Service Unavailable')
    })
  }

  async close(): Promise<void> {
    await this.hub.close()
    for (const client of this.server.clients) client.terminate()
    this.server.close()
  }

  private async admit(request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void> {
    const url = new URL(request.url ?? '/', 'http://localhost')
    const name = decodeURIComponent(url.pathname.slice(syncPath.length))
    const place = parseDocumentName(name)
    if (place === undefined) return refuseUpgrade(socket, '404 Not Found')
    if (!this.options.isOwnOrigin(request)) return refuseUpgrade(socket, '403 Forbidden')
    if (this.connections >= limits.sockets) return refuseUpgrade(socket, '503 Service Unavailable')
    const caller = await this.options.authenticate(request)
    const role = await caller?.roleIn(place.caseId)
    // A browser cannot read why an upgrade failed, so the socket is opened and closed with the reason.
    if (caller === undefined || role === undefined)
      return this.upgrade(request, socket, head, (ws) =>
        ws.close(closeCode.notAllowed, 'you have no access to this case; ask for a new link'),
      )
    const room = await this.hub.open(name)
    const { id, name: personName, affiliation } = caller.participant
    const entry: Entry = {
      person: { id, name: personName, affiliation, role },
      hearsOwn: url.searchParams.get('own') === '1',
      roleNow: caller.session === null ? undefined : () => caller.roleIn(place.caseId),
    }
    this.upgrade(request, socket, head, (ws) => this.hub.enter(room, ws, entry))
  }

  private upgrade(request: IncomingMessage, socket: Duplex, head: Buffer, then: (ws: WebSocket) => void): void {
    this.server.handleUpgrade(request, socket, head, (ws) => {
      ws.on('error', () => ws.terminate())
      then(ws)
    })
  }
}

function refuseUpgrade(socket: Duplex, status: string): void {
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`)
}
