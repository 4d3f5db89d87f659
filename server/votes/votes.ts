import type * as Y from 'yjs'
import { ballotFault, countBallots } from '../../lib/board/ballots.ts'
import { documentName } from '../../lib/board/documents.ts'
import { writeVoteResult } from '../../lib/board/edits/votes.ts'
import type { ParticipantId } from '../../lib/board/identity.ts'
import type { Sender } from '../../lib/board/judge.ts'
import { readRecord } from '../../lib/board/reading.ts'
import type { Ballot, Vote } from '../../lib/board/records/vote.ts'
import { recordKinds } from '../../lib/board/records.ts'
import { accessBy, grantsByParticipant } from '../people/access.ts'
import type { Hub } from '../room/hub.ts'
import { type Store, StoreConflict, type StoredCase } from '../store/store.ts'

/**
 * Ballots of a case. They are kept beside the documents, which everybody receives whole, and enter the record only as
 * counts, in one edit of the server's own, when the moderator closes the vote.
 */
export interface Votes {
  /** undefined when there is no such vote in this case */
  find(place: StoredCase, id: string): Promise<Vote | undefined>
  ballotOf(place: StoredCase, vote: Vote, participant: ParticipantId): Promise<Ballot | null>
  /** how many have voted */
  turnout(place: StoredCase, vote: Vote): Promise<number>
  /** Casts a ballot, or changes the one cast before. */
  cast(place: StoredCase, vote: Vote, participant: ParticipantId, ballot: Ballot): Promise<CastOutcome>
  /** Ends the casting, counts, and writes the result into the record. Closing twice gives the same result. */
  close(place: StoredCase, vote: Vote, by: Sender): Promise<void>
}

export type CastOutcome = 'cast' | 'closed' | 'no-such-option' | 'confidence-not-asked'

export interface VotesParts {
  readonly store: Store
  readonly hub: Hub
  readonly now: () => Date
}

export function createVotes({ store, hub, now }: VotesParts): Votes {
  const recordOf = (place: StoredCase) => hub.visit(documentName('record', place.id))
  return {
    find: async (place, id) => (await recordOf(place)).tables.get('votes', id),
    ballotOf: async (place, vote, participant) =>
      (await store.listBallots(place.id, keyOf(vote))).find((cast) => cast.participant === participant)?.ballot ?? null,
    turnout: async (place, vote) => (await store.listBallots(place.id, keyOf(vote))).length,
    cast: async (place, vote, participant, ballot) => {
      if (vote.result !== undefined) return 'closed'
      const fault = ballotFault(vote, ballot)
      if (fault !== undefined) return fault
      try {
        await store.castBallot({ caseId: place.id, vote: keyOf(vote), participant, ballot, at: now().toISOString() })
        return 'cast'
      } catch (error) {
        if (error instanceof StoreConflict) return 'closed'
        throw error
      }
    },
    close: async (place, vote, by) => {
      if (vote.result !== undefined) return
      // From here on nobody casts any more; whatever fails below is done again by the next close, with the same ballots.
      const cast = await store.closeBallots(place.id, keyOf(vote))
      const notVoted = await countWithout(store, place, new Set(cast.map(({ participant }) => participant)), now())
      const counted = countBallots(
        vote,
        cast.map(({ ballot }) => ballot),
        notVoted,
      )
      const room = await recordOf(place)
      if (room.tables.get('votes', vote.id)?.result !== undefined) return
      const at = now()
      const result = { by: by.participant, at: at.toISOString(), ...counted }
      // Made anew when somebody else was first: of two who close at once, on two processes, one result stands.
      const writeOnce = (doc: Y.Doc) => {
        if (readRecord(doc, 'votes', vote.id)?.result === undefined) writeVoteResult(doc, vote.id, result)
      }
      await room.write(writeOnce, by, at.getTime())
    },
  }
}

/** A vote that was taken away and made again under the same id has none of the ballots of the first. */
const keyOf = ({ id, at }: Vote): string => `${id} ${at}`

/** Who has a vote in this case now, and is not among these. */
async function countWithout(
  store: Store,
  place: StoredCase,
  voted: ReadonlySet<ParticipantId>,
  now: Date,
): Promise<number> {
  const voters: readonly string[] = recordKinds.votes.voters
  return [...grantsByParticipant(await store.listGrantsCovering(place.id))].filter(
    ([participant, grants]) => !voted.has(participant) && voters.includes(accessBy(grants, now).roleIn(place) ?? ''),
  ).length
}
