import type { IncomingMessage } from 'node:http'
import type { Duplex } from 'node:stream'
import { type WebSocket, WebSocketServer } from 'ws'
import { parseDocumentName } from '../../lib/board/documents.ts'
import type { Role } from '../../lib/board/roles.ts'
import { closeCode } from '../../lib/board/wire.ts'
import { closeSockets } from '../close-sockets.ts'
import { type Store, StoreOutage } from '../store/store.ts'
import { Hub, type HubParts, type Log } from './hub.ts'
import { limits } from './limits.ts'
import type { Room } from './room.ts'
import type { Entry } from './session.ts'

/** Who makes a request, however they proved it; the role is read anew for each case. */
export interface Caller {
  readonly participant: { readonly id: string; readonly name: string; readonly affiliation: string }
  /** null for a ticket: judged once, when the socket opens */
  readonly session: string | null
  roleIn(caseId: string): Promise<Role | undefined>
}

export interface SyncEndpointOptions extends HubParts {
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
  /** Open sockets of each person. */
  private readonly socketsOf = new Map<string, number>()
  private readonly server = new WebSocketServer({
    noServer: true,
    maxPayload: limits.frameBytes,
    perMessageDeflate: false,
  })

  constructor(options: SyncEndpointOptions) {
    this.options = options
    this.hub = new Hub(options.store, options.log, options)
  }

  get connections(): number {
    return this.server.clients.size
  }

  handleUpgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void {
    // Without a listener one broken connection would end the process.
    socket.on('error', () => socket.destroy())
    this.admit(request, socket, head).catch((error: unknown) => {
      this.options.log('sync-refused', { problem: error instanceof Error ? error.message : String(error) })
      if (error instanceof StoreOutage) this.turnAway(request, socket, head)
      else refuseUpgrade(socket, '503 Service Unavailable')
    })
  }

  async close(): Promise<void> {
    await this.hub.close()
    await closeSockets(this.server)
  }

  /** Nothing can be stored here at present: the page says so, and tries again. */
  private turnAway(request: IncomingMessage, socket: Duplex, head: Buffer): void {
    const code = this.hub.isClosing ? closeCode.restarting : closeCode.notStored
    this.dismiss(request, socket, head, code, 'nothing can be stored here at present')
  }

  private async admit(request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void> {
    const url = new URL(request.url ?? '/', 'http://localhost')
    const name = decodeURIComponent(url.pathname.slice(syncPath.length))
    const place = parseDocumentName(name)
    if (place === undefined) return refuseUpgrade(socket, '404 Not Found')
    if (!this.options.isOwnOrigin(request)) {
      this.options.log('socket-refused', { code: 'cross-site' })
      return refuseUpgrade(socket, '403 Forbidden')
    }
    if (this.connections >= limits.sockets) return refuseUpgrade(socket, '503 Service Unavailable')
    const caller = await this.options.authenticate(request)
    const [role, room] = (await this.roleAndRoom(caller, place.caseId, name)) ?? []
    // A browser cannot read why an upgrade failed, so the socket is opened and closed with the reason.
    if (caller === undefined || role === undefined || room === undefined) {
      // Whoever has signed out tries as well: of them there is nothing to tell.
      if (caller !== undefined) this.tellRefusal('not-permitted', name, caller.participant.id)
      const reason = 'you have no access to this case; ask for a new link'
      return this.dismiss(request, socket, head, closeCode.notAllowed, reason)
    }
    const { id, name: personName, affiliation } = caller.participant
    // Tickets are made on the server's own computer, as many as are wanted there.
    if (caller.session !== null && (this.socketsOf.get(id) ?? 0) >= limits.socketsPerPerson) {
      this.tellRefusal('too-many-pages', name, id)
      return this.dismiss(request, socket, head, closeCode.tooFast, 'too many pages of one person are open; close some')
    }
    const entry: Entry = {
      person: { id, name: personName, affiliation, role },
      hearsOwn: url.searchParams.get('own') === '1',
      roleNow: caller.session === null ? undefined : () => caller.roleIn(place.caseId),
    }
    this.upgrade(request, socket, head, (ws) => {
      this.count(id, ws)
      this.hub.enter(room, ws, entry)
    })
  }

  /** @returns undefined without a role; it is asked for again when somebody was expelled while the room was opened */
  private async roleAndRoom(
    caller: Caller | undefined,
    caseId: string,
    name: string,
  ): Promise<readonly [Role, Room] | undefined> {
    for (;;) {
      const before = this.hub.expulsions
      const role = await caller?.roleIn(caseId)
      if (role === undefined) return undefined
      const room = await this.hub.open(name)
      if (this.hub.expulsions === before) return [role, room]
    }
  }

  private tellRefusal(code: string, document: string, participant: string): void {
    this.options.log('socket-refused', { code, document, participant })
  }

  private count(participant: string, ws: WebSocket): void {
    this.socketsOf.set(participant, (this.socketsOf.get(participant) ?? 0) + 1)
    ws.once('close', () => {
      const left = (this.socketsOf.get(participant) ?? 1) - 1
      if (left > 0) this.socketsOf.set(participant, left)
      else this.socketsOf.delete(participant)
    })
  }

  /** Opens a socket to say why there is no way in. Whoever does not answer holds no place for long. */
  private dismiss(request: IncomingMessage, socket: Duplex, head: Buffer, code: number, reason: string): void {
    this.upgrade(request, socket, head, (ws) => {
      const patience = setTimeout(() => ws.terminate(), limits.goodbyeMs)
      ws.once('close', () => clearTimeout(patience))
      ws.close(code, reason)
    })
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
