import type { IncomingMessage } from 'node:http'
import type { Duplex } from 'node:stream'
import { type WebSocket, WebSocketServer } from 'ws'
import type { ParticipantId } from '../../lib/board/identity.ts'
import { CaseId } from '../../lib/board/identity.ts'
import { closeCode } from '../../lib/board/wire.ts'
import { followPath, followTickMs } from '../../lib/interchange/follow.ts'
import { closeSockets } from '../close-sockets.ts'
import type { Access } from '../people/access.ts'
import type { Store } from '../store/store.ts'
import { programmeView, readProgramme, type WholeProgramme } from './programme-view.ts'

/** Bounds of one follower's socket. */
export const followLimits = {
  /** A follower has nothing to say. */
  frameBytes: 1024,
  /** What may wait unsent: some hundred states of a long day. A page that is behind by more comes back by itself. */
  backlogBytes: 256 * 1024,
  /** Without an answer to pings for this time a link is taken for dead. */
  silenceMs: 6 * followTickMs,
  /** Followers that one process takes. */
  sockets: 4000,
  /** Of them for one person. */
  socketsPerPerson: 50,
} as const

/** Whoever asks to follow a programme. */
interface FollowingCaller {
  readonly participant: { readonly id: string }
  /** What the caller may reach by the grants that stand now. */
  accessNow(): Promise<Access>
}

export interface FollowEndpointOptions {
  readonly store: Store
  readonly log: (event: string, facts?: Readonly<Record<string, string | number>>) => void
  authenticate(request: IncomingMessage): Promise<FollowingCaller | undefined>
  /** Whether a browser may connect from the page it names; requests without Origin come from other programs. */
  isOwnOrigin(request: IncomingMessage): boolean
  /** How often everybody is checked; a test may be less patient. */
  readonly tickMs?: number
}

export const isFollowRequest = (request: IncomingMessage): boolean => request.url?.startsWith(followPath) === true

/** One page that follows one programme. */
interface Follower {
  readonly socket: WebSocket
  readonly programme: string
  readonly caller: FollowingCaller
  access: Access
  /** the state that the page has */
  told: string
  /** when it last answered a ping, milliseconds of the server's clock */
  heardAtMs: number
}

/**
 * The WebSocket `/follow/<programme>`: each message is a whole ProgrammeDetail as its reader may see it, the first at once,
 * then one for each change. The state itself is the store's: a page that was away reads it anew when it comes back.
 */
export class FollowEndpoint {
  private readonly options: FollowEndpointOptions
  private readonly server = new WebSocketServer({
    noServer: true,
    maxPayload: followLimits.frameBytes,
    perMessageDeflate: false,
  })
  private readonly followers = new Set<Follower>()
  private readonly timer: NodeJS.Timeout

  constructor(options: FollowEndpointOptions) {
    this.options = options
    this.timer = setInterval(() => this.guarded(this.tick(), 'follow-check-failed'), options.tickMs ?? followTickMs)
  }

  handleUpgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void {
    // Without a listener one broken connection would end the process.
    socket.on('error', () => socket.destroy())
    this.admit(request, socket, head).catch((error: unknown) => {
      this.options.log('follow-refused', { problem: String(error) })
      refuseUpgrade(socket, '503 Service Unavailable')
    })
  }

  /** A programme is not what it was: everybody who follows it is told. */
  changed(programme: string): void {
    this.guarded(this.tell(programme), 'follow-failed')
  }

  /** Closes every socket of somebody whose access may have ended; who still has some comes back by it. */
  expel(participant: ParticipantId): void {
    for (const { caller, socket } of this.followers)
      if (caller.participant.id === participant) socket.close(closeCode.revoked, 'your access has changed')
  }

  /** How many pages follow here. */
  get size(): number {
    return this.followers.size
  }

  async close(): Promise<void> {
    clearInterval(this.timer)
    for (const { socket } of this.followers) socket.close(closeCode.restarting, 'the server is restarting')
    await closeSockets(this.server)
  }

  private async admit(request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void> {
    const { pathname } = new URL(request.url ?? '/', 'http://localhost')
    const programme = CaseId.safeParse(pathname.slice(followPath.length)).data
    if (programme === undefined) return refuseUpgrade(socket, '404 Not Found')
    if (!this.options.isOwnOrigin(request)) return refuseUpgrade(socket, '403 Forbidden')
    if (this.followers.size >= followLimits.sockets) return refuseUpgrade(socket, '503 Service Unavailable')
    const caller = await this.options.authenticate(request)
    const access = await caller?.accessNow()
    const whole = await readProgramme(this.options.store, programme)
    this.server.handleUpgrade(request, socket, head, (ws) => {
      ws.on('error', () => ws.terminate())
      // A browser cannot read why an upgrade failed, so the socket is opened and closed with the reason.
      if (caller === undefined || access === undefined || whole === undefined || !programmeView(whole, access))
        return ws.close(closeCode.notAllowed, 'you have no access to this programme; ask for a new link')
      if (this.socketsOf(caller.participant.id) >= followLimits.socketsPerPerson)
        return ws.close(closeCode.tooFast, 'too many pages of one person are open; close some')
      this.enter({ socket: ws, programme, caller, access, told: '', heardAtMs: performance.now() })
    })
  }

  private socketsOf(participant: ParticipantId): number {
    let count = 0
    for (const { caller } of this.followers) if (caller.participant.id === participant) count++
    return count
  }

  private enter(follower: Follower): void {
    const { socket, programme } = follower
    this.followers.add(follower)
    socket.on('close', () => this.followers.delete(follower))
    socket.on('message', () => socket.close(closeCode.unexpected, 'this socket only tells'))
    socket.on('pong', () => {
      follower.heardAtMs = performance.now()
    })
    // Read again: something may have changed between the look at the rights and the opening.
    const first = readProgramme(this.options.store, programme).then((whole) => void tellOne(follower, whole))
    this.guarded(first, 'follow-failed')
  }

  private async tell(programme: string): Promise<void> {
    const whole = await readProgramme(this.options.store, programme)
    for (const follower of this.followers) if (follower.programme === programme) tellOne(follower, whole)
  }

  /** Access that ran out by itself, names that changed in a case's record, and links that died without a word. */
  private async tick(): Promise<void> {
    const following = [...this.followers]
    const accesses = await Promise.all(following.map(({ caller }) => caller.accessNow()))
    const programmes = new Map<string, WholeProgramme | undefined>()
    for (const id of new Set(following.map(({ programme }) => programme)))
      programmes.set(id, await readProgramme(this.options.store, id))
    for (const [index, follower] of following.entries()) {
      if (performance.now() - follower.heardAtMs > followLimits.silenceMs) {
        follower.socket.terminate()
        continue
      }
      follower.access = accesses[index] ?? follower.access
      follower.socket.ping()
      if (!tellOne(follower, programmes.get(follower.programme))) follower.socket.send(stillHere)
    }
  }

  private guarded(work: Promise<void>, event: string): void {
    work.catch((error: unknown) => this.options.log(event, { problem: String(error) }))
  }
}

/** A page cannot hear pings; by this it knows that the link stands. */
const stillHere = ''

/** @returns whether anything was sent */
function tellOne(follower: Follower, whole: WholeProgramme | undefined): boolean {
  const { socket, access } = follower
  const view = whole && programmeView(whole, access)
  if (view === undefined) {
    socket.close(closeCode.revoked, 'your access to this programme has ended')
    return true
  }
  const text = JSON.stringify(view)
  if (text === follower.told) return false
  if (socket.bufferedAmount > followLimits.backlogBytes) {
    socket.terminate()
    return true
  }
  follower.told = text
  socket.send(text)
  return true
}

function refuseUpgrade(socket: Duplex, status: string): void {
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`)
}
