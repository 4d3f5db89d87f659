import * as z from 'zod/mini'
import { Moment } from '../board/identity.ts'
import { SessionMark } from '../board/session-marks.ts'

/**
 * GET /api/cases/:id/timeline: from when to when there is anything to see, and what happened, in order of time. Times are
 * those of the server's log, so that the state at a mark's own time already holds what the mark says. Null: nothing is written.
 */
export const SessionTimeline = z.strictObject({
  firstAt: z.nullable(Moment),
  lastAt: z.nullable(Moment),
  marks: z.array(z.strictObject({ at: Moment, mark: SessionMark })),
})
export type SessionTimeline = z.infer<typeof SessionTimeline>
export type MarkedMoment = SessionTimeline['marks'][number]
