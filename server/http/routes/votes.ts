import { Ballot, type Vote } from '../../../lib/board/records/vote.ts'
import { kindOf } from '../../../lib/board/records.ts'
import type { Role } from '../../../lib/board/roles.ts'
import type { OwnBallot } from '../../../lib/interchange/api.ts'
import type { Caller } from '../../people/people.ts'
import type { StoredCase } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { ok, type Reply, refuse } from '../reply.ts'
import { type Ask, emptyBody, get, post, type Route, signedIn } from '../routes.ts'

const { create, voters = [] } = kindOf('votes')
const mayVote = (role: Role): boolean => voters.includes(role)
const mayClose = (role: Role): boolean => create.includes(role)

/** A vote, and who asks about it in which role. */
interface Asked<Body> extends Ask<Body, Caller> {
  readonly place: StoredCase
  readonly role: Role
  readonly vote: Vote
}

/** Voting in a case, by what the table of rights says of the caller's role in it. */
export function voteRoutes({ store, votes }: ApiParts): readonly Route[] {
  const about =
    <Body>(may: (role: Role) => boolean, handle: (asked: Asked<Body>) => Promise<Reply>) =>
    async (ask: Ask<Body, Caller>): Promise<Reply> => {
      const place = await store.findCase(ask.params.id ?? '')
      const role = place === null ? undefined : ask.caller.access.roleIn(place)
      if (place === null || role === undefined || !may(role)) return refuse('not-permitted')
      const vote = await votes.find(place, ask.params.vote ?? '')
      return vote === undefined ? refuse('not-found') : handle({ ...ask, place, role, vote })
    }
  return [
    get(
      '/api/cases/:id/votes/:vote',
      signedIn,
      about(
        (role) => mayVote(role) || mayClose(role),
        async ({ caller, place, role, vote }) =>
          ok({
            ballot: mayVote(role) ? await votes.ballotOf(place, vote, caller.participant.id) : null,
            turnout: mayClose(role) ? await votes.turnout(place, vote) : null,
          } satisfies OwnBallot),
      ),
    ),
    post(
      '/api/cases/:id/votes/:vote/ballot',
      signedIn,
      Ballot,
      about<Ballot>(mayVote, async ({ body, caller, place, vote }) => {
        const outcome = await votes.cast(place, vote, caller.participant.id, body)
        if (outcome === 'cast') return ok({})
        return outcome === 'closed' ? refuse('vote-closed') : refuse('bad-request', outcome)
      }),
    ),
    post(
      '/api/cases/:id/votes/:vote/close',
      signedIn,
      emptyBody,
      about(mayClose, async ({ caller, place, role, vote }) => {
        await votes.close(place, vote, { participant: caller.participant.id, role })
        return ok({})
      }),
    ),
  ]
}
