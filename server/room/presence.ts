import * as decoding from 'lib0/decoding'
import * as encoding from 'lib0/encoding'
import { rolesWithPresence } from '../../lib/board/roles.ts'
import { maxPresenceBytes, Presence } from '../../lib/board/wire.ts'
import { presenceFrame } from './frames.ts'
import { limits } from './limits.ts'
import type { Person } from './session.ts'

interface Published {
  readonly owner: object
  readonly clock: number
  /** JSON as sent; `null` once the page has gone */
  readonly state: string
}

/** The most client ids that one socket may publish under: a page uses one, and a new one after each renewal. */
const clientsPerSocket = 16

/**
 * Who is pointing and typing in a room. A state counts only if it names the person of its socket, comes from a role
 * whose presence is published and is small; everybody else hears of all changes of a tick in one frame.
 */
export class RoomPresence {
  private readonly published = new Map<number, Published>()
  private readonly changed = new Set<number>()
  private timer: NodeJS.Timeout | undefined
  private readonly broadcast: (frame: Uint8Array) => void

  constructor(broadcast: (frame: Uint8Array) => void) {
    this.broadcast = broadcast
  }

  /** Takes what a page says of itself; entries that it may not say are dropped. */
  receive(owner: object, person: Person, states: Uint8Array): void {
    if (!rolesWithPresence.includes(person.role)) return
    for (const { client, clock, state } of readStates(states)) {
      const known = this.published.get(client)
      if (known === undefined ? this.countOf(owner) >= clientsPerSocket : known.owner !== owner || known.clock >= clock)
        continue
      if (state === 'null' || isOwnState(state, person)) this.publish(client, { owner, clock, state })
    }
  }

  /** The page of this socket has gone. */
  leave(owner: object): void {
    for (const [client, { owner: other, clock }] of this.published)
      if (other === owner) this.publish(client, { owner, clock: clock + 1, state: 'null' })
  }

  /** Everybody's state, for somebody who has just come; undefined in an empty room. */
  all(): Uint8Array | undefined {
    return this.published.size === 0 ? undefined : presenceFrame(this.encode([...this.published.keys()]))
  }

  close(): void {
    clearTimeout(this.timer)
  }

  private countOf(owner: object): number {
    let count = 0
    for (const entry of this.published.values()) if (entry.owner === owner) count++
    return count
  }

  private publish(client: number, entry: Published): void {
    this.published.set(client, entry)
    this.changed.add(client)
    this.timer ??= setTimeout(() => this.flush(), limits.presenceTickMs)
  }

  private flush(): void {
    this.timer = undefined
    const states = this.encode([...this.changed])
    for (const client of this.changed) if (this.published.get(client)?.state === 'null') this.published.delete(client)
    this.changed.clear()
    this.broadcast(presenceFrame(states))
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
