import { z } from 'zod'
import { Roster } from '../../lib/board/wire.ts'

/**
 * What the processes of one board tell each other. None of it is kept: who misses something finds it in the store, where
 * everything that matters is.
 */
export const Notice = z.discriminatedUnion('kind', [
  /** The log of a document reaches so far. */
  z.object({ kind: z.literal('appended'), document: z.string(), seq: z.int() }),
  /** Somebody's access may have shrunk. */
  z.object({ kind: z.literal('access-changed'), participant: z.string() }),
  /** Order, times or what is on have changed in a programme. */
  z.object({ kind: z.literal('programme-changed'), programme: z.string() }),
  /** A case is erased: nobody may stay in it, or write to it. */
  z.object({ kind: z.literal('case-erased'), caseId: z.string() }),
  /** An address tried an invitation link that there is not. */
  z.object({ kind: z.literal('link-missed'), address: z.string() }),
  /** Who points and types: an awareness message in base64. */
  z.object({ kind: z.literal('presence'), document: z.string(), states: z.string() }),
  /** Somebody has opened a document and would know who points and types in it. */
  z.object({ kind: z.literal('presence-wanted'), document: z.string() }),
  /** Who has a document open has changed; the list is in the store. */
  z.object({ kind: z.literal('attendance-changed'), document: z.string() }),
  /** The sender ends. */
  z.object({ kind: z.literal('leaving') }),
])
export type Notice = z.infer<typeof Notice>

/** Who has a document open at one process. Observers are named here, so that one with two pages is counted once. */
export const Attendance = z.object({ people: Roster.shape.people, observers: z.array(z.string()) })
export type Attendance = z.infer<typeof Attendance>

export interface Listener {
  heard?(from: string, notice: Notice): void
  /** Notices may have been missed. */
  missed?(): void
  /** A process has ended, in good order or not. */
  left?(node: string): void
}

/** The other processes of the board. */
export interface Neighbours {
  /** Whether there can be any. */
  readonly possible: boolean
  tell(notice: Notice): void
  listen(listener: Listener): void
  /** Says who has a document open here; null when nobody has. */
  attend(document: string, attendance: Attendance | null): Promise<void>
  /** Who has it open at the other processes. */
  attendance(document: string): Promise<readonly Attendance[]>
  /** Whether notices of others arrive at present. */
  readonly inTouch: boolean
  close(): Promise<void>
}

/** Of the only process that there is. */
export const alone: Neighbours = {
  possible: false,
  inTouch: true,
  tell: () => undefined,
  listen: () => undefined,
  attend: async () => undefined,
  attendance: async () => [],
  close: async () => undefined,
}
