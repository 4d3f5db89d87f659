import type * as Y from 'yjs'
import type { ParticipantId } from '../../lib/board/identity.ts'
import type { Sender } from '../../lib/board/judge.ts'
import type { Refusal } from '../../lib/board/refusals.ts'
import type { Change } from '../../lib/board/rules.ts'
import type { Session } from './session.ts'

/** An edit of somebody's, as it came in. */
export interface SentEdit {
  readonly kind: 'sent'
  readonly update: Uint8Array
  readonly by: Sender
  readonly nowMs: number
  readonly session: Session
  /** number of the content frame on its socket */
  readonly frame: number
}

/** An edit of somebody who asked without their name: judged as if they had sent it under the author that stands for them. */
interface UnnamedEdit {
  readonly kind: 'unnamed'
  readonly update: Uint8Array
  readonly by: Sender
  readonly person: ParticipantId
  readonly nowMs: number
  readonly stored: () => void
  readonly refused: (refused: Refusal) => void
  readonly failed: (error: unknown) => void
}

/** An edit of the server's own, which is nobody's hand, in the name of whoever asked for it. */
export interface OwnEdit {
  readonly kind: 'own'
  readonly edit: (doc: Y.Doc) => void
  readonly by: Sender
  readonly nowMs: number
  readonly stored: () => void
  readonly failed: (error: unknown) => void
}

/** An edit that somebody's rights are asked for. */
export type JudgedEdit = SentEdit | UnnamedEdit
export type Edit = JudgedEdit | OwnEdit

/** An edit that passed the guard and is on its way into the log. */
export interface Pending {
  readonly edit: Edit
  readonly update: Uint8Array
  readonly changes: readonly Change[]
  readonly newClients: readonly number[]
  /** changes nothing, so it is not written; it is confirmed when what came before it is stored */
  readonly empty: boolean
}
