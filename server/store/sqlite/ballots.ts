import type { ParticipantId } from '../../../lib/board/identity.ts'
import { type CastBallot, StoreConflict } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

interface Row {
  readonly participant: ParticipantId
  readonly option: number
  readonly confidence: number | null
}

/** Ballots, one a person and vote, and which votes take no more of them. */
export function ballots(db: Db): Synchronous<'castBallot' | 'listBallots' | 'closeBallots'> {
  const isClosed = db.prepare<[string, string], unknown>('SELECT 1 FROM closed_votes WHERE case_id = ? AND vote = ?')
  const put = db.prepare(
    `INSERT INTO ballots (case_id, vote, participant, option, confidence, at)
     VALUES (@caseId, @vote, @participant, @option, @confidence, @at)
     ON CONFLICT (case_id, vote, participant)
     DO UPDATE SET option = excluded.option, confidence = excluded.confidence, at = excluded.at`,
  )
  const all = db.prepare<[string, string], Row>(
    'SELECT participant, option, confidence FROM ballots WHERE case_id = ? AND vote = ? ORDER BY participant',
  )
  const close = db.prepare<[string, string]>(
    'INSERT INTO closed_votes (case_id, vote) VALUES (?, ?) ON CONFLICT DO NOTHING',
  )
  const list = (caseId: string, vote: string): readonly CastBallot[] =>
    all.all(caseId, vote).map(({ participant, option, confidence }) => ({
      participant,
      ballot: confidence === null ? { option } : { option, confidence },
    }))
  return {
    castBallot: ({ caseId, vote, participant, ballot, at }) => {
      if (isClosed.get(caseId, vote) !== undefined) throw new StoreConflict(`Vote ${vote} of ${caseId} is closed.`)
      put.run({ caseId, vote, participant, at, option: ballot.option, confidence: ballot.confidence ?? null })
    },
    listBallots: list,
    closeBallots: (caseId, vote) => {
      close.run(caseId, vote)
      return list(caseId, vote)
    },
  }
}
