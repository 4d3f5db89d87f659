import type { Ballot, Vote, VoteResult } from './records/vote.ts'
import { spreadOf } from './spread.ts'

/** Why a ballot does not fit its vote; undefined when it does. */
export function ballotFault(
  { options, asksConfidence }: Pick<Vote, 'options' | 'asksConfidence'>,
  { option, confidence }: Ballot,
): 'no-such-option' | 'confidence-not-asked' | undefined {
  if (option >= options.length) return 'no-such-option'
  return confidence !== undefined && !asksConfidence ? 'confidence-not-asked' : undefined
}

/**
 * Counts the ballots of a vote, one a person.
 * @param notVoted how many could have voted and did not, integer, 0 or more
 * @throws RangeError for a ballot that does not fit the vote, and for a `notVoted` that is no count
 */
export function countBallots(
  vote: Pick<Vote, 'options' | 'asksConfidence'>,
  ballots: readonly Ballot[],
  notVoted: number,
): Omit<VoteResult, 'by' | 'at'> {
  if (!Number.isInteger(notVoted) || notVoted < 0) throw new RangeError(`notVoted is a count; got ${notVoted}`)
  for (const ballot of ballots) {
    const fault = ballotFault(vote, ballot)
    if (fault !== undefined) throw new RangeError(`a ballot does not fit its vote: ${fault}`)
  }
  return {
    options: vote.options.map((_, place) => {
      const chosen = ballots.filter(({ option }) => option === place)
      return { votes: chosen.length, ...confidenceOf(chosen) }
    }),
    ...confidenceOf(ballots),
    notVoted,
  }
}

function confidenceOf(ballots: readonly Ballot[]): Pick<VoteResult, 'confidence'> {
  const confidence = spreadOf(ballots.flatMap((ballot) => ballot.confidence ?? []))
  return confidence === undefined ? {} : { confidence }
}
