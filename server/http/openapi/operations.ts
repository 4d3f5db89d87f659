import type { z } from 'zod'
import * as api from '../../../lib/interchange/api.ts'
import * as data from '../../../lib/interchange/case-data.ts'
import { ExperienceAnswer } from '../../../lib/interchange/experience.ts'
import { AddedPicture } from '../../../lib/interchange/pictures/new-picture.ts'
import { SeriesAnswer } from '../../../lib/interchange/series.ts'
import { SessionTimeline } from '../../../lib/interchange/session-timeline.ts'
import { AskedUnnamed, UnnamedAuthors } from '../../../lib/interchange/unnamed.ts'

/** What an operation answers with when it succeeds. */
export type Answer =
  | { readonly kind: 'json'; readonly schema: z.core.$ZodType; readonly status?: 201 }
  /** success and nothing else */
  | { readonly kind: 'empty' }
  | { readonly kind: 'file'; readonly types: readonly string[] }

export interface Operation {
  readonly summary: string
  readonly tag: 'people' | 'programmes' | 'cases' | 'records' | 'exchange' | 'votes' | 'server'
  readonly answer: Answer
}

const json = (schema: z.core.$ZodType): Answer => ({ kind: 'json', schema })
const made = (schema: z.core.$ZodType): Answer => ({ kind: 'json', schema, status: 201 })
const file = (...types: string[]): Answer => ({ kind: 'file', types })
const empty: Answer = { kind: 'empty' }

/** What the document says of each route beyond the route itself, by method and pattern. */
export const operations: Readonly<Record<string, Operation>> = {
  'GET /healthz': { summary: 'Whether the server and its store answer', tag: 'server', answer: json(api.Health) },
  'GET /readyz': { summary: 'Whether the server takes requests', tag: 'server', answer: json(api.Health) },
  'GET /metrics': { summary: 'Counts for whoever watches the server', tag: 'server', answer: file('text/plain') },
  'GET /api/openapi.json': { summary: 'This document', tag: 'server', answer: file('application/json') },
  'GET /api/clock': { summary: 'The time of the server', tag: 'server', answer: json(api.ServerClock) },

  'GET /api/me': { summary: 'Who the caller is', tag: 'people', answer: json(api.Me) },
  'GET /api/invitations/:token/preview': {
    summary: 'What an invitation link is for',
    tag: 'people',
    answer: json(api.InvitationPreview),
  },
  'POST /api/join': { summary: 'Joins by an invitation', tag: 'people', answer: json(api.JoinAnswer) },
  'POST /api/leave': { summary: 'Ends the session', tag: 'people', answer: empty },
  'GET /api/invitations': {
    summary: 'All invitations, for the owner',
    tag: 'people',
    answer: json(api.InvitationList),
  },
  'POST /api/invitations': { summary: 'Makes an invitation', tag: 'people', answer: made(api.CreatedInvitation) },
  'POST /api/invitations/:id/revoke': { summary: 'Withdraws an invitation', tag: 'people', answer: empty },

  'GET /api/programmes': {
    summary: 'Programmes that the caller may see',
    tag: 'programmes',
    answer: json(api.ProgrammeList),
  },
  'POST /api/programmes': { summary: 'Makes a programme', tag: 'programmes', answer: made(api.Programme) },
  'GET /api/programmes/:id': {
    summary: 'A programme and its cases',
    tag: 'programmes',
    answer: json(api.ProgrammeDetail),
  },
  'POST /api/programmes/:id/cases': { summary: 'Makes a case', tag: 'programmes', answer: made(api.CaseSummary) },
  'POST /api/programmes/:id/order': {
    summary: 'Orders the cases of the day',
    tag: 'programmes',
    answer: json(api.ProgrammeDetail),
  },
  'POST /api/programmes/:id/cases/:case/slot': {
    summary: 'Sets the time of a case and the break before it',
    tag: 'programmes',
    answer: json(api.ProgrammeDetail),
  },
  'POST /api/programmes/:id/now': {
    summary: 'Brings a case on, or says that the meeting is between two',
    tag: 'programmes',
    answer: json(api.ProgrammeDetail),
  },

  'GET /api/cases': { summary: 'Cases that the caller may see', tag: 'cases', answer: json(api.CaseList) },
  'GET /api/cases/:id': { summary: 'A case and where its documents are', tag: 'cases', answer: json(api.CaseDetail) },
  'GET /api/cases/:id/people': {
    summary: 'Who may see the case or has written in it',
    tag: 'cases',
    answer: json(api.PeopleOfCase),
  },
  'GET /api/cases/:id/timeline': {
    summary: 'What happened in a case and when',
    tag: 'cases',
    answer: json(SessionTimeline),
  },
  'GET /api/cases/:id/moments/:at': {
    summary: 'Both documents as they were at an instant, as Yjs updates',
    tag: 'cases',
    answer: file('application/octet-stream'),
  },
  'GET /api/cases/:id/withdrawals': {
    summary: 'What was taken back from everybody',
    tag: 'cases',
    answer: json(api.WithdrawalList),
  },
  'POST /api/cases/:id/withdrawals': { summary: 'Takes a record back from everybody', tag: 'cases', answer: empty },
  'POST /api/cases/:id/erase': { summary: 'Erases a case for good', tag: 'cases', answer: json(api.ErasureReceipt) },
  'GET /api/erasures': { summary: 'Receipts of erased cases', tag: 'cases', answer: json(api.ErasureList) },
  'POST /api/erasures/among': {
    summary: 'Which of these cases were erased, so that a browser drops its copies',
    tag: 'cases',
    answer: json(api.CasesHeld),
  },
  'GET /api/cases/:id/unnamed': {
    summary: 'Who asked without a name: the caller, and for moderators everybody',
    tag: 'cases',
    answer: json(UnnamedAuthors),
  },
  'POST /api/cases/:id/unnamed': { summary: 'Asks without a name', tag: 'cases', answer: made(AskedUnnamed) },
  'POST /api/cases/:id/unnamed/:author': { summary: 'Rewords a question without a name', tag: 'cases', answer: empty },
  'POST /api/cases/:id/unnamed/:author/reply': {
    summary: 'Replies to a question of the caller',
    tag: 'cases',
    answer: empty,
  },
  'POST /api/cases/:id/unnamed/:author/withdraw': {
    summary: 'Takes a question without a name back',
    tag: 'cases',
    answer: empty,
  },

  'POST /api/cases/:id/pictures': {
    summary: 'Adds a photograph, which is cleaned of metadata',
    tag: 'cases',
    answer: made(AddedPicture),
  },
  'GET /api/cases/:id/pictures/:picture': {
    summary: 'A photograph, unless it was withdrawn',
    tag: 'cases',
    answer: file('image/png', 'image/jpeg'),
  },
  'GET /api/cases/:id/withdrawals/:withdrawal/picture': {
    summary: 'A photograph that was withdrawn, for the owner',
    tag: 'cases',
    answer: file('image/png', 'image/jpeg'),
  },

  'GET /api/cases/:id/votes/:vote': {
    summary: 'The ballot of the caller, and the turnout',
    tag: 'votes',
    answer: json(api.OwnBallot),
  },
  'POST /api/cases/:id/votes/:vote/ballot': { summary: 'Casts a ballot', tag: 'votes', answer: empty },
  'POST /api/cases/:id/votes/:vote/close': { summary: 'Closes a vote and counts it', tag: 'votes', answer: empty },

  'GET /api/cases/:id/tests': {
    summary: 'Hearing and speech tests with their codes',
    tag: 'records',
    answer: json(data.TestsOfCase),
  },
  'GET /api/cases/:id/measures': {
    summary: 'Pure-tone averages of each test',
    tag: 'records',
    answer: json(data.MeasuresOfCase),
  },
  'GET /api/cases/:id/forecasts': {
    summary: 'Sealed forecasts and scenarios',
    tag: 'records',
    answer: json(data.ForecastsOfCase),
  },

  'GET /api/series': {
    summary: 'Outcomes of the cases that the caller may see, added up',
    tag: 'records',
    answer: json(SeriesAnswer),
  },
  'GET /api/cases/:id/experience': {
    summary: 'Ears of the series that a forecast may learn from',
    tag: 'records',
    answer: json(ExperienceAnswer),
  },

  'GET /api/cases/:id/export/fhir': {
    summary: 'The case in FHIR R4',
    tag: 'exchange',
    answer: file('application/fhir+json'),
  },
  'GET /api/cases/:id/export/statistics': {
    summary: 'Tables for statistics and their dictionary, CSV in a zip',
    tag: 'exchange',
    answer: file('application/zip'),
  },
  'GET /api/cases/:id/export/archive': { summary: 'The whole case', tag: 'exchange', answer: file('application/zip') },
  'POST /api/programmes/:id/archives/preview': {
    summary: 'Checks an archive and holds it against what is here; writes nothing',
    tag: 'exchange',
    answer: json(api.CaseArchivePreview),
  },
  'POST /api/programmes/:id/archives': {
    summary: 'Takes a case in under its own id',
    tag: 'exchange',
    answer: made(api.CaseSummary),
  },
  'POST /api/programmes/:id/archives/copy': {
    summary: 'Takes a case in as a copy under a new id',
    tag: 'exchange',
    answer: made(api.CaseSummary),
  },
}
