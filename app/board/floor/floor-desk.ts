import type { Person } from '@/app/board/board-context.tsx'
import type { BeforePosting } from '@/app/board/post-guard.tsx'
import type { Thread } from '@/lib/board/edits/floor.ts'
import type { ParticipantId, RecordId } from '@/lib/board/identity.ts'
import type { Anchor, Question } from '@/lib/board/records/question.ts'
import type { Rights } from '@/lib/board/rights.ts'
import type { Ear, FrequencyHz } from '@/lib/units/frequencies.ts'

export interface QuestionWords {
  readonly text: string
  readonly anchor?: Anchor
}

/** Everything that can be done on the floor; each is one edit of the shared documents. */
export interface FloorActs {
  ask(words: QuestionWords): void
  /** Asks without the asker's name, by the server. @returns whether it was asked */
  askUnnamed(words: QuestionWords): Promise<boolean>
  /** @returns whether it was written: one's own question without a name is changed by the server */
  reword(question: Question, words: QuestionWords): Promise<boolean>
  reply(question: Question, text: string): Promise<boolean>
  takeBack(question: Question): Promise<boolean>
  back(thread: Thread): void
  call(id: RecordId): void
  answer(id: RecordId, text: string, saidBy: string): void
  draftAnswer(id: RecordId, text: string, saidBy: string): void
  defer(id: RecordId, to: string): void
  setAside(id: RecordId): void
  reopen(id: RecordId): void
  fold(id: RecordId, into: RecordId): void
  unfold(id: RecordId): void
  shift(id: RecordId, by: -1 | 1): void
  /** absent for those who do not run the main screen */
  readonly screen?: ((id: RecordId) => void) | undefined
}

export interface NamedRecord {
  readonly id: RecordId
  readonly label: string
}

/** What the floor's views need to know of the rest of the board. */
export interface FloorDesk {
  readonly me: ParticipantId
  /** the authors that stand for this person in what they asked without their name */
  readonly own: ReadonlySet<ParticipantId>
  /** what somebody who asked without their name was looking at; told to moderators */
  readonly pictures: ReadonlyMap<ParticipantId, string>
  /** the ear that is operated on: where a place on the audiogram starts from */
  readonly ear: Ear
  readonly people: ReadonlyMap<ParticipantId, Person>
  readonly notes: readonly NamedRecord[]
  readonly steps: readonly NamedRecord[]
  readonly scenarios: readonly NamedRecord[]
  readonly may: Rights
  readonly acts: FloorActs
  /** asks first when a text looks as if it identified somebody */
  readonly beforePosting: BeforePosting
  /** dB HL of the current air-conduction threshold, where a pin without a level is put */
  thresholdAt(ear: Ear, frequency: FrequencyHz): number | undefined
}
