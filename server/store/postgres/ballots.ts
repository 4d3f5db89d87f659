import type { ParticipantId } from '../../../lib/board/identity.ts'
import { type CastBallot, type Store, StoreConflict } from '../store.ts'
import type { Db } from './database.ts'

interface Row {
  readonly participant: ParticipantId
  readonly option: number
  readonly confidence: number | null
}

/** Ballots, one a person and vote, and which votes take no more of them. */
export function ballots(db: Db): Pick<Store, 'castBallot' | 'listBallots' | 'closeBallots'> {
  const list = async (caseId: string, vote: string): Promise<readonly CastBallot[]> => {
    const rows = await db.rows<Row>(
      'SELECT participant, option, confidence FROM ballots WHERE case_id = $1 AND vote = $2 ORDER BY participant',
      [caseId, vote],
    )
    return rows.map(({ participant, option, confidence }) => ({
      participant,
      ballot: confidence === null ? { option } : { option, confidence },
    }))
  }
  return {
    castBallot: async ({ caseId, vote, participant, ballot, at }) => {
      const values = [caseId, vote, participant, ballot.option, ballot.confidence ?? null, at]
      const [cast] = await db.rows<{ taken: boolean }>('SELECT cast_ballot($1, $2, $3, $4, $5, $6) AS taken', values)
      if (cast?.taken !== true) throw new StoreConflict(`Vote ${vote} of ${caseId} is closed.`)
    },
    listBallots: list,
    closeBallots: async (caseId, vote) => {
      await db.rows('SELECT close_vote($1, $2)', [caseId, vote])
      return list(caseId, vote)
    },
  }
}
