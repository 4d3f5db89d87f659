import type { Thread } from '@/lib/board/edits/floor.ts'
import { byRank } from '@/lib/board/reading.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import type { Note } from '@/lib/board/records/note.ts'
import type { Vote } from '@/lib/board/records/vote.ts'

/** The called question; of several (two moderators at once) the one called last. */
export function calledQuestion(threads: readonly Thread[]): Thread | undefined {
  return threads
    .filter(({ question }) => question.state === 'called')
    .toSorted((a, b) => (a.question.movedAt ?? '').localeCompare(b.question.movedAt ?? ''))
    .at(-1)
}

/** Contingencies that may still call for action: those met come before those watched. */
export function openContingencies(contingencies: readonly Contingency[]): readonly Contingency[] {
  const inState = (state: Contingency['state']) =>
    contingencies.filter((contingency) => contingency.state === state).sort(byRank)
  return [...inState('met'), ...inState('watching')]
}

/** The same for the theatre: what somebody finds while operating comes before what is measured months later. */
export function contingenciesInTheatre(contingencies: readonly Contingency[]): readonly Contingency[] {
  const urgency = ({ state, trigger }: Contingency) => (state === 'met' ? 0 : trigger.kind === 'found' ? 1 : 2)
  return openContingencies(contingencies).toSorted((a, b) => urgency(a) - urgency(b))
}

/** The vote under way, else the one closed last; of several under way the newest. */
export function voteInTheatre(votes: readonly Vote[]): Vote | undefined {
  const latest = (some: readonly Vote[], timeOf: (vote: Vote) => string) =>
    some.toSorted((a, b) => timeOf(a).localeCompare(timeOf(b))).at(-1)
  const open = votes.filter(({ result }) => result === undefined)
  return latest(open, ({ at }) => at) ?? latest(votes, ({ result, at }) => result?.at ?? at)
}

/** The finding or decision written last that was not struck out. */
export function newestNote(notes: readonly Note[]): Note | undefined {
  return notes
    .filter(({ kind, struck }) => kind !== 'reason' && struck === undefined)
    .toSorted((a, b) => a.at.localeCompare(b.at))
    .at(-1)
}
