import type * as Y from 'yjs'
import type { RecordId } from '../identity.ts'
import type { Vote, VoteResult } from '../records/vote.ts'
import { addRecord, changeRecord, type Pen, removeRecord } from './writing.ts'

export type NewVote = Pick<Vote, 'question' | 'note' | 'options' | 'asksConfidence'>

export const openVote = (doc: Y.Doc, pen: Pen, vote: NewVote): RecordId => addRecord(doc, pen, 'votes', vote)

/** Takes an open vote away, with what was cast. */
export const withdrawVote = (doc: Y.Doc, id: RecordId): void => removeRecord(doc, 'votes', id)

/** Closes a vote by its result: the server's own edit, which is nobody's hand. */
export const writeVoteResult = (doc: Y.Doc, id: RecordId, result: VoteResult): void =>
  changeRecord(doc, 'votes', id, { result })
