import type { Awareness } from 'y-protocols/awareness'
import type * as Y from 'yjs'
import type { Person } from '@/app/board/board-context.tsx'
import type { BeforePosting } from '@/app/board/post-guard.tsx'
import type { ParticipantId, RecordId } from '@/lib/board/identity.ts'
import type { ContingencyState, Trigger } from '@/lib/board/records/contingency.ts'
import type { Citation, Note } from '@/lib/board/records/note.ts'
import type { Rights } from '@/lib/board/rights.ts'
import type { Presence } from '@/lib/board/wire.ts'

/** Everything that can be done to notes and contingencies; each is one edit of the shared record. */
export interface DecisionsActs {
  startNote(kind: Note['kind']): RecordId
  changeKind(id: RecordId, kind: Note['kind']): void
  cite(id: RecordId, citation: Citation): void
  dropCitation(id: RecordId, citation: Citation): void
  strike(id: RecordId, reason: string): void
  shiftNote(id: RecordId, by: -1 | 1): void
  addContingency(trigger: Trigger, plan: string): void
  rewordContingency(id: RecordId, trigger: Trigger, plan: string): void
  moveContingency(id: RecordId, state: ContingencyState, why: string): void
  shiftContingency(id: RecordId, by: -1 | 1): void
  fileUnder(kind: 'notes' | 'contingencies', id: RecordId, step: RecordId | undefined): void
  /** absent for those who do not run the main screen */
  readonly screen?: ((kind: 'note' | 'contingency', id: RecordId) => void) | undefined
}

/** Something that a note can cite, as it is named here. */
export interface Citable {
  readonly citation: Citation
  readonly label: string
}

/** What a note's text is written with. */
export interface WritingDesk {
  readonly awareness: Awareness
  readonly user: Presence['user']
  fragmentOf(note: RecordId): Y.XmlFragment
  /** publishes at which note this person types; null when no longer */
  typing(note: RecordId | null): void
}

/** What the views of decisions need to know of the rest of the board. */
export interface DecisionsDesk {
  readonly me: ParticipantId
  readonly people: ReadonlyMap<ParticipantId, Person>
  readonly may: Rights
  readonly acts: DecisionsActs
  readonly citable: readonly Citable[]
  /** the steps of the operation, in order */
  readonly steps: readonly { readonly id: RecordId; readonly label: string }[]
  readonly writing: WritingDesk
  readonly beforePosting: BeforePosting
  /** shows a cited thing where it stands */
  goTo(citation: Citation): void
}

export const isCitationOf =
  (citation: Citation) =>
  (other: Citable): boolean =>
    other.citation.kind === citation.kind && other.citation.id === citation.id
