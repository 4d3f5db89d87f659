import { byRank } from '../board/reading.ts'
import type { Note } from '../board/records/note.ts'
import type { Question } from '../board/records/question.ts'
import type { Visit } from '../board/records/visit.ts'
import type { VisitItem } from '../board/records/visit-item.ts'
import type { Vote } from '../board/records/vote.ts'

export interface AppendixRecords {
  readonly notes: readonly Note[]
  readonly votes: readonly Vote[]
  readonly questions: readonly Question[]
  readonly visitItems: readonly VisitItem[]
  readonly visits: readonly Visit[]
}

export interface DecisionWithVotes {
  readonly note: Note
  readonly votes: readonly Vote[]
}

/** A question that was put off, with the visit that is to answer it once one has taken it up. */
export interface DeferredQuestion {
  readonly question: Question
  readonly item: VisitItem | undefined
  readonly visit: Visit | undefined
}

export interface ReportAppendix {
  readonly decisions: readonly DecisionWithVotes[]
  /** closed votes about no decision that is listed */
  readonly otherVotes: readonly Vote[]
  readonly answered: readonly Question[]
  readonly deferred: readonly DeferredQuestion[]
}

/** What was decided, asked and put off. A decision that was struck is no longer one; an open vote has no result to report. */
export function reportAppendix(records: AppendixRecords): ReportAppendix {
  const closed = records.votes.filter(({ result }) => result !== undefined).sort(byTime)
  const notes = records.notes.filter(({ kind, struck }) => kind !== 'finding' && struck === undefined).sort(byRank)
  const listed = new Set(notes.map(({ id }) => id))
  const questions = records.questions.filter(({ foldedInto }) => foldedInto === undefined)
  return {
    decisions: notes.map((note) => ({ note, votes: closed.filter((vote) => vote.note === note.id) })),
    otherVotes: closed.filter(({ note }) => note === undefined || !listed.has(note)),
    answered: questions
      .filter(({ state, answer }) => state === 'answered' && answer !== undefined)
      .sort((a, b) => (a.answer?.at ?? '').localeCompare(b.answer?.at ?? '') || a.id.localeCompare(b.id)),
    deferred: questions
      .filter(({ state }) => state === 'deferred')
      .sort(byTime)
      .map((question) => deferredTo(question, records)),
  }
}

function deferredTo(question: Question, { visitItems, visits }: AppendixRecords): DeferredQuestion {
  const item = visitItems.find((of) => of.question === question.id && of.state !== 'dropped')
  return { question, item, visit: visits.find(({ id }) => id === item?.visit) }
}

const byTime = (a: { readonly at: string; readonly id: string }, b: { readonly at: string; readonly id: string }) =>
  a.at.localeCompare(b.at) || a.id.localeCompare(b.id)
