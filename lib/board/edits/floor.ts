import type * as Y from 'yjs'
import type { RecordId } from '../identity.ts'
import { tableOf } from '../layout.ts'
import { byRank, readTable } from '../reading.ts'
import { type Anchor, backingId, type Question, type QuestionState } from '../records/question.ts'
import { addRecord, changeRecord, type Pen, rankAtEnd, rankBetween, removeRecord } from './writing.ts'

export function raiseQuestion(doc: Y.Doc, pen: Pen, { text, anchor }: { text: string; anchor?: Anchor }): RecordId {
  const rank = rankAtEnd(readTable(doc, 'questions'))
  return addRecord(doc, pen, 'questions', { text, rank, state: 'raised', ...(anchor === undefined ? {} : { anchor }) })
}

export function reply(doc: Y.Doc, pen: Pen, question: RecordId, text: string): RecordId {
  return addRecord(doc, pen, 'replies', { question, text })
}

/** Backs a question, or takes the backing back. */
export function toggleBacking(doc: Y.Doc, pen: Pen, question: RecordId): void {
  const id = backingId(question, pen.participant)
  if (tableOf(doc, 'backings').has(id)) removeRecord(doc, 'backings', id)
  else addRecord(doc, pen, 'backings', { question }, id)
}

/** Calling one question puts the one called before it back among the raised: one is called at a time. */
export function callQuestion(doc: Y.Doc, pen: Pen, id: RecordId): void {
  doc.transact(() => {
    for (const other of readTable(doc, 'questions'))
      if (other.state === 'called' && other.id !== id) moveQuestion(doc, pen, other.id, 'raised')
    moveQuestion(doc, pen, id, 'called')
  })
}

export function moveQuestion(doc: Y.Doc, pen: Pen, id: RecordId, state: QuestionState): void {
  changeRecord(doc, 'questions', id, { state, movedAt: pen.now().toISOString() })
}

export function deferQuestion(doc: Y.Doc, pen: Pen, id: RecordId, deferredTo: string): void {
  changeRecord(doc, 'questions', id, { state: 'deferred', deferredTo, movedAt: pen.now().toISOString() })
}

/** Writes the answer that was given aloud, and by whom. */
export function answerQuestion(doc: Y.Doc, pen: Pen, id: RecordId, text: string, saidBy?: string): void {
  const at = pen.now().toISOString()
  const answer = { text, by: pen.participant, at, ...(saidBy === undefined || saidBy === '' ? {} : { saidBy }) }
  changeRecord(doc, 'questions', id, { answer, state: 'answered', movedAt: at })
}

export function foldQuestion(doc: Y.Doc, id: RecordId, into: RecordId): void {
  changeRecord(doc, 'questions', id, { foldedInto: into })
}

export function unfoldQuestion(doc: Y.Doc, id: RecordId): void {
  changeRecord(doc, 'questions', id, { foldedInto: undefined })
}

/** Moves a question one place up or down among those of the same state. */
export function shiftQuestion(doc: Y.Doc, id: RecordId, by: -1 | 1): void {
  const all = readTable(doc, 'questions')
  const self = all.find((question) => question.id === id)
  if (self === undefined) return
  const queue = all
    .filter((question) => question.state === self.state && question.foldedInto === undefined)
    .sort(byRank)
  const to = queue.indexOf(self) + by
  if (to < 0 || to >= queue.length) return
  const others = queue.filter((question) => question !== self)
  changeRecord(doc, 'questions', id, { rank: rankBetween(others[to - 1]?.rank, others[to]?.rank) })
}

/** A question with those folded into it, its replies and its backers (of any of them, each person once). */
export interface Thread {
  readonly question: Question
  readonly folded: readonly Question[]
  readonly replies: readonly {
    readonly id: RecordId
    readonly author: string
    readonly at: string
    readonly text: string
  }[]
  readonly backers: readonly string[]
}

export function readThreads(doc: Y.Doc): Thread[] {
  const questions = readTable(doc, 'questions').sort(byRank)
  const replies = readTable(doc, 'replies').sort((a, b) => a.at.localeCompare(b.at))
  const backings = readTable(doc, 'backings')
  return questions
    .filter((question) => question.foldedInto === undefined)
    .map((question) => {
      const folded = questions.filter((other) => other.foldedInto === question.id)
      const ids = new Set([question.id, ...folded.map((other) => other.id)])
      return {
        question,
        folded,
        replies: replies.filter((reply) => ids.has(reply.question)),
        backers: [
          ...new Set(backings.filter((backing) => ids.has(backing.question)).map((backing) => backing.author)),
        ].sort(),
      }
    })
}
