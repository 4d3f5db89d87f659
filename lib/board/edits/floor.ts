import type * as Y from 'yjs'
import type { RecordId } from '../identity.ts'
import { tableOf } from '../layout.ts'
import { byRank, readRecord, readTable } from '../reading.ts'
import {
  type Anchor,
  type Backing,
  backingId,
  mostThemes,
  type Question,
  type QuestionState,
  type Reply,
} from '../records/question.ts'
import { rankAfterShift } from './order.ts'
import { addRecord, addRemark, changeRecord, type Pen, rankAtEnd, removeRecord } from './writing.ts'

export function raiseQuestion(doc: Y.Doc, pen: Pen, { text, anchor }: { text: string; anchor?: Anchor }): RecordId {
  const rank = rankAtEnd(readTable(doc, 'questions'))
  return addRemark(doc, pen, 'questions', { text, rank, state: 'raised', ...(anchor === undefined ? {} : { anchor }) })
}

/** Takes one's own question back while it waits. */
export const withdrawQuestion = (doc: Y.Doc, id: RecordId): void => removeRecord(doc, 'questions', id)

export function reply(doc: Y.Doc, pen: Pen, question: RecordId, text: string): RecordId {
  return addRecord(doc, pen, 'replies', { question, text })
}

/** Backs a question, or takes the backing back. */
export function toggleBacking(doc: Y.Doc, pen: Pen, question: RecordId): void {
  const id = backingId(question, pen.participant)
  if (tableOf(doc, 'backings').has(id)) removeRecord(doc, 'backings', id)
  else addRemark(doc, pen, 'backings', { question }, id)
}

/** Backs a thread, or takes back every backing of its questions: a person backs what stands together once. */
export function toggleThreadBacking(doc: Y.Doc, pen: Pen, { question, folded }: Thread): void {
  const backings = tableOf(doc, 'backings')
  const own = [question, ...folded].map(({ id }) => backingId(id, pen.participant)).filter((id) => backings.has(id))
  if (own.length === 0) return toggleBacking(doc, pen, question.id)
  doc.transact(() => {
    for (const id of own) removeRecord(doc, 'backings', id)
  })
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
  changeRecord(doc, 'questions', id, { state, ...moveOf(pen) })
}

const moveOf = (pen: Pen) => ({ movedAt: pen.now().toISOString(), movedBy: pen.participant })

export function deferQuestion(doc: Y.Doc, pen: Pen, id: RecordId, deferredTo: string): void {
  changeRecord(doc, 'questions', id, { state: 'deferred', deferredTo, ...moveOf(pen) })
}

/** Changes the words of a question, and what it is about; no anchor takes the anchor away. */
export function rewordQuestion(doc: Y.Doc, id: RecordId, { text, anchor }: { text: string; anchor?: Anchor }): void {
  changeRecord(doc, 'questions', id, { text, anchor })
}

/** What was said aloud: in one line, by whom, and during which step. */
export interface SpokenAnswer {
  readonly text: string
  readonly saidBy?: string | undefined
  readonly step?: RecordId | undefined
}

/**
 * Writes the answer that was given aloud, and by whom. Whether that closes the question is the moderator's move.
 * An answer that stands there in the same words keeps the name of whoever wrote it.
 */
export function writeAnswer(doc: Y.Doc, pen: Pen, id: RecordId, { text, saidBy, step }: SpokenAnswer): void {
  const standing = readRecord(doc, 'questions', id)?.answer
  if (standing?.text === text && (standing.saidBy ?? '') === (saidBy ?? '')) return
  const answer = {
    text,
    by: pen.participant,
    at: pen.now().toISOString(),
    ...(saidBy === undefined || saidBy === '' ? {} : { saidBy }),
    ...(step === undefined ? {} : { step }),
  }
  changeRecord(doc, 'questions', id, { answer })
}

/** Writes the answer and closes the question with it. */
export function answerQuestion(doc: Y.Doc, pen: Pen, id: RecordId, answer: SpokenAnswer): void {
  doc.transact(() => {
    writeAnswer(doc, pen, id, answer)
    moveQuestion(doc, pen, id, 'answered')
  })
}

/** Lets one question stand for another, and for what was folded into that one before. What is folded is not called. */
export function foldQuestion(doc: Y.Doc, pen: Pen, id: RecordId, into: RecordId): void {
  doc.transact(() => {
    for (const { id: other, foldedInto } of readTable(doc, 'questions'))
      if (foldedInto === id) changeRecord(doc, 'questions', other, { foldedInto: into })
    const isCalled = readRecord(doc, 'questions', id)?.state === 'called'
    changeRecord(doc, 'questions', id, { foldedInto: into, ...(isCalled ? { state: 'raised' } : {}), ...moveOf(pen) })
  })
}

export function unfoldQuestion(doc: Y.Doc, pen: Pen, id: RecordId): void {
  changeRecord(doc, 'questions', id, { foldedInto: undefined, ...moveOf(pen) })
}

/** Moves a question one place up or down among those of the same state. */
export function shiftQuestion(doc: Y.Doc, id: RecordId, by: -1 | 1): void {
  const all = readTable(doc, 'questions')
  const self = all.find((question) => question.id === id)
  if (self === undefined) return
  const queue = all.filter((question) => question.state === self.state && question.foldedInto === undefined)
  const rank = rankAfterShift(queue, id, by)
  if (rank !== undefined) changeRecord(doc, 'questions', id, { rank })
}

/** Files a question under a theme, or takes it out again. A theme beyond the most that a question holds changes nothing. */
export function toggleTheme(doc: Y.Doc, id: RecordId, theme: string): void {
  const themes = readRecord(doc, 'questions', id)?.themes ?? []
  const next = themes.includes(theme) ? themes.filter((other) => other !== theme) : [...themes, theme]
  if (next.length <= mostThemes) changeRecord(doc, 'questions', id, { themes: next.length === 0 ? undefined : next })
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

export const readThreads = (doc: Y.Doc): Thread[] =>
  threadsOf(readTable(doc, 'questions'), readTable(doc, 'replies'), readTable(doc, 'backings'))

export function threadsOf(
  questions: readonly Question[],
  replies: readonly Reply[],
  backings: readonly Backing[],
): Thread[] {
  const foldedBy = groupedBy([...questions].sort(byRank), (question) => question.foldedInto)
  const repliesBy = groupedBy(replies, (reply) => reply.question)
  const backingsBy = groupedBy(backings, (backing) => backing.question)
  return (foldedBy.get(undefined) ?? []).map((question) => {
    const folded = foldedBy.get(question.id) ?? []
    return { question, folded, ...voicesOf([question, ...folded], repliesBy, backingsBy) }
  })
}

function voicesOf(
  questions: readonly Question[],
  repliesBy: ReadonlyMap<RecordId, readonly Reply[]>,
  backingsBy: ReadonlyMap<RecordId, readonly Backing[]>,
): Pick<Thread, 'replies' | 'backers'> {
  const replies = questions.flatMap(({ id }) => repliesBy.get(id) ?? [])
  // Who asked one of these stands behind them already.
  const askers = new Set(questions.map(({ author }) => author))
  const backers = questions
    .flatMap(({ id }) => backingsBy.get(id) ?? [])
    .map((backing) => backing.author)
    .filter((author) => !askers.has(author))
  return {
    replies: replies.sort((a, b) => (a.at === b.at ? a.id.localeCompare(b.id) : a.at.localeCompare(b.at))),
    backers: [...new Set(backers)].sort(),
  }
}

function groupedBy<T, K>(items: readonly T[], keyOf: (item: T) => K): ReadonlyMap<K, T[]> {
  const groups = new Map<K, T[]>()
  for (const item of items) {
    const group = groups.get(keyOf(item))
    if (group === undefined) groups.set(keyOf(item), [item])
    else group.push(item)
  }
  return groups
}
