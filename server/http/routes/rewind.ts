import { documentName } from '../../../lib/board/documents.ts'
import { Moment } from '../../../lib/board/identity.ts'
import { rolesWithRewind } from '../../../lib/board/roles.ts'
import { SessionMark } from '../../../lib/board/session-marks.ts'
import { encodeMomentState } from '../../../lib/interchange/moment-state.ts'
import type { MarkedMoment, SessionTimeline } from '../../../lib/interchange/session-timeline.ts'
import type { Access } from '../../people/access.ts'
import { documentsOfCase, type LoggedMark, type StateAt, type Store, type Timeline } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { createPace } from '../pace.ts'
import { ok, refuse } from '../reply.ts'
import { get, type Route, signedIn } from '../routes.ts'

/** A case as it was at an earlier moment, and what happened in it when. */
export function rewindRoutes({ store, now }: ApiParts): readonly Route[] {
  const isTooFast = createPace(momentsPace, now)
  return [
    get('/api/cases/:id/timeline', signedIn, async ({ caller, params }) => {
      const id = params.id ?? ''
      if (!(await mayRewind(store, id, caller.access))) return refuse('not-permitted')
      return ok(timelineOf(await Promise.all(documentsOfCase(id).map((document) => store.timeline(document)))))
    }),
    get('/api/cases/:id/moments/:at', signedIn, async ({ caller, params }) => {
      const id = params.id ?? ''
      if (!(await mayRewind(store, id, caller.access))) return refuse('not-permitted')
      if (isTooFast(caller.participant.id)) return refuse('too-many-requests')
      const at = Moment.safeParse(params.at)
      if (!at.success) return refuse('bad-request', 'A moment is an instant in UTC, such as 2026-03-02T10:42:07.000Z.')
      const instant = new Date(at.data).toISOString()
      const [record, floor] = await Promise.all([
        store.loadAt(documentName('record', id), instant),
        store.loadAt(documentName('floor', id), instant),
      ])
      return ok(encodeMomentState({ record: updatesOf(record), floor: updatesOf(floor) }))
    }),
  ]
}

/** Moments that one person may open: a hand on the slider stays below, a script that reads a whole session does not. */
const momentsPace = { perSecond: 5, burst: 40 } as const

async function mayRewind(store: Store, id: string, access: Access): Promise<boolean> {
  const found = await store.findCase(id)
  const role = found === null ? undefined : access.roleIn(found)
  return role !== undefined && rolesWithRewind.includes(role)
}

const updatesOf = ({ snapshot, updates }: StateAt): Uint8Array[] => [
  ...(snapshot === null ? [] : [snapshot.state]),
  ...updates.map(({ update }) => update),
]

function timelineOf(timelines: readonly Timeline[]): SessionTimeline {
  const sorted = (moments: readonly (string | null)[]) => moments.filter((moment) => moment !== null).sort()
  return {
    firstAt: sorted(timelines.map(({ firstAt }) => firstAt))[0] ?? null,
    lastAt: sorted(timelines.map(({ lastAt }) => lastAt)).at(-1) ?? null,
    marks: timelines
      .flatMap(({ marks }) => marks.map(markedMoment))
      .sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0)),
  }
}

const markedMoment = ({ at, kind, record, state }: LoggedMark): MarkedMoment => ({
  at,
  mark: SessionMark.parse({ kind, record, state }),
})
