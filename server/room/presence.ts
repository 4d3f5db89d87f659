import * as decoding from 'lib0/decoding'
import * as encoding from 'lib0/encoding'
import { rolesWithPresence } from '../../lib/board/roles.ts'
import { maxPresenceBytes, Presence, spokenOf } from '../../lib/board/wire.ts'
import { presenceFrame } from './frames.ts'
import { limits } from './limits.ts'
import type { Person } from './session.ts'

interface Published {
  readonly owner: object
  readonly clock: number
  /** JSON as sent; `null` once the page has gone */
  readonly state: string
}

/** What is told to other processes in one message: in base64 it stays below the 8000 bytes of a NOTIFY. */
const passedBytes = 5_600
/** Client id, clock and length of a state, as variable-length integers. */
const bytesBesideState = 20

/** The most client ids that one socket may publish under: a page uses one, and a new one after each renewal. */
const clientsPerSocket = 16

export interface PresenceOutlets {
  /** To everybody in the room. */
  show(frame: Uint8Array): void
  /** To other processes, where there can be any: what people of this one do. */
  readonly pass: ((states: Uint8Array) => void) | undefined
}

/**
 * Who is pointing and typing in a room. A state counts only if it names the person of its socket, comes from a role
 * whose presence is published and is small; everybody else hears of all changes of a tick in one frame.
 */
export class RoomPresence {
  private readonly published = new Map<number, Published>()
  private readonly changed = new Set<number>()
  private timer: NodeJS.Timeout | undefined
  /** When the next frame may go: who moves after a pause is seen at once. */
  private restingUntil = 0
  /** Who tells for the people of another process: one owner a process. */
  private readonly elsewhere = new Map<string, object>()
  private readonly outlets: PresenceOutlets

  constructor(outlets: PresenceOutlets) {
    this.outlets = outlets
  }

  /** Whether a frame says only what is known already: a client that sends back all it hears is not a busy one. */
  isKnown(states: Uint8Array): boolean {
    const spoken = spokenOf(states, clientsPerSocket)
    return spoken.length > 0 && spoken.every(({ client, clock }) => clock <= (this.published.get(client)?.clock ?? -1))
  }

  /** Takes what a page says of itself; entries that it may not say are dropped. */
  receive(owner: object, person: Person, states: Uint8Array): void {
    if (!rolesWithPresence.includes(person.role)) return
    for (const { client, clock, state } of readStates(states)) {
      const known = this.published.get(client)
      // Of somebody who has gone already, by a client that sends back all it hears.
      if (known === undefined && state === 'null') continue
      if (known === undefined ? this.countOf(owner) >= clientsPerSocket : !this.mayReplace(known, owner, person, clock))
        continue
      if (state === 'null' || isOwnState(state, person)) this.publish(client, { owner, clock, state })
    }
  }

  /** The page of this socket has gone. */
  leave(owner: object): void {
    for (const [client, { owner: other, clock }] of this.published)
      if (other === owner) this.publish(client, { owner, clock: clock + 1, state: 'null' })
  }

  /** What another process says of its people, whom it has checked. */
  receiveFrom(node: string, states: Uint8Array): void {
    const owner = this.elsewhere.get(node) ?? {}
    this.elsewhere.set(node, owner)
    for (const { client, clock, state } of readStates(states)) {
      const known = this.published.get(client)
      // Somebody whose link went over to another process is told of by that one, under the same client id.
      if (known === undefined || known.clock < clock) this.publish(client, { owner, clock, state })
    }
  }

  /** Another process has ended. */
  leaveNode(node: string): void {
    const owner = this.elsewhere.get(node)
    this.elsewhere.delete(node)
    if (owner !== undefined) this.leave(owner)
  }

  /** Tells other processes of everybody here. */
  passAll(): void {
    this.pass([...this.published.keys()])
  }

  /** Everybody's state, for somebody who has just come; undefined in an empty room. */
  all(): Uint8Array | undefined {
    return this.published.size === 0 ? undefined : presenceFrame(this.encode([...this.published.keys()]))
  }

  close(): void {
    clearTimeout(this.timer)
  }

  /** A page may have come over from another process, which is still to say that it has gone there. */
  private mayReplace(known: Published, owner: object, person: Person, clock: number): boolean {
    const isOwn = known.owner === owner || (this.isElsewhere(known.owner) && isOwnState(known.state, person))
    return isOwn && known.clock < clock
  }

  private countOf(owner: object): number {
    let count = 0
    for (const entry of this.published.values()) if (entry.owner === owner) count++
    return count
  }

  private publish(client: number, entry: Published): void {
    this.published.set(client, entry)
    this.changed.add(client)
    this.timer ??= setTimeout(() => this.flush(), this.restingUntil - performance.now())
  }

  private flush(): void {
    this.timer = undefined
    const begun = performance.now()
    const states = this.encode([...this.changed])
    this.pass([...this.changed])
    for (const client of this.changed) if (this.published.get(client)?.state === 'null') this.published.delete(client)
    this.changed.clear()
    this.outlets.show(presenceFrame(states))
    const { least, most } = limits.presenceTickMs
    const end = performance.now()
    this.restingUntil = end + Math.min(most, Math.max(least, limits.presenceRest * (end - begun)))
  }

  /** Several messages where one would be too long for the database to carry. */
  private pass(clients: readonly number[]): void {
    const { pass } = this.outlets
    if (pass === undefined) return
    let message: number[] = []
    let bytes = 0
    for (const client of clients.filter((each) => this.isOurs(each))) {
      const more = Buffer.byteLength(this.published.get(client)?.state ?? '') + bytesBesideState
      if (more > passedBytes) continue // its own process shows it; the others do without
      if (bytes + more > passedBytes) {
        pass(this.encode(message))
        message = []
        bytes = 0
      }
      message.push(client)
      bytes += more
    }
    if (message.length > 0) pass(this.encode(message))
  }

  private isOurs(client: number): boolean {
    const owner = this.published.get(client)?.owner
    return owner !== undefined && !this.isElsewhere(owner)
  }

  private isElsewhere(owner: object): boolean {
    return [...this.elsewhere.values()].includes(owner)
  }

  private encode(clients: readonly number[]): Uint8Array {
    const encoder = encoding.createEncoder()
    encoding.writeVarUint(encoder, clients.length)
    for (const client of clients) {
      const entry = this.published.get(client)
      encoding.writeVarUint(encoder, client)
      encoding.writeVarUint(encoder, entry?.clock ?? 0)
      encoding.writeVarString(encoder, entry?.state ?? 'null')
    }
    return encoding.toUint8Array(encoder)
  }
}

/** Entries of an awareness message of y-protocols; none for bytes that are not one. */
function readStates(states: Uint8Array): { client: number; clock: number; state: string }[] {
  try {
    const decoder = decoding.createDecoder(states)
    const count = Math.min(decoding.readVarUint(decoder), clientsPerSocket)
    return Array.from({ length: count }, () => ({
      client: decoding.readVarUint(decoder),
      clock: decoding.readVarUint(decoder),
      state: decoding.readVarString(decoder),
    }))
  } catch {
    return []
  }
}

function isOwnState(state: string, person: Person): boolean {
  if (state.length > maxPresenceBytes) return false
  try {
    const presence = Presence.parse(JSON.parse(state))
    return presence.user.id === person.id && presence.user.role === person.role && presence.user.name === person.name
  } catch {
    return false
  }
}
