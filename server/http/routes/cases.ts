import { documentName } from '../../../lib/board/documents.ts'
import type { Role } from '../../../lib/board/roles.ts'
import type { CaseDetail, CaseList, PeopleOfCase } from '../../../lib/interchange/api.ts'
import { visibleCases, withoutOnNow } from '../../meeting/programme-view.ts'
import { type Access, accessBy, grantsByParticipant } from '../../people/access.ts'
import type { Participant, Store, StoredCase } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { ok, refuse } from '../reply.ts'
import { get, type Route, signedIn } from '../routes.ts'

/** Cases as the caller may see them. A case that is not theirs is answered like one that is not there. */
export function caseRoutes({ store, now }: ApiParts): readonly Route[] {
  return [
    get('/api/cases', signedIn, async ({ caller }) =>
      ok({ cases: visibleCases(await store.listCases(), caller.access) } satisfies CaseList),
    ),
    get('/api/cases/:id', signedIn, async ({ caller, params }) => {
      const id = params.id ?? ''
      const detail = await caseDetail(store, id, caller.access)
      if (detail !== undefined) return ok(detail)
      return refuse(await whyNot(store, id))
    }),
    get('/api/cases/:id/people', signedIn, async ({ caller, params }) => {
      const found = await store.findCase(params.id ?? '')
      const role = found === null ? undefined : caller.access.roleIn(found)
      if (found === null || role === undefined) return refuse(await whyNot(store, params.id ?? ''))
      return ok(await peopleOf(store, found, role, now()))
    }),
  ]
}

/** An erased case is told even to those who were never invited: a page has to drop its copy, and the id alone says nothing. */
const whyNot = async (store: Store, id: string) =>
  (await store.listErasures()).some(({ caseId }) => caseId === id) ? 'case-erased' : 'not-permitted'

async function caseDetail(store: Store, id: string, access: Access): Promise<CaseDetail | undefined> {
  const found = await store.findCase(id)
  const role = found === null ? undefined : access.roleIn(found)
  const programme = (await store.listProgrammes()).find((each) => each.id === found?.programme)
  if (found === null || role === undefined || programme === undefined) return undefined
  const documents = { record: documentName('record', id), floor: documentName('floor', id) }
  return { case: { ...found, role }, programme: withoutOnNow(programme), documents }
}

/** Observers may be hundreds and are counted, not listed, except to those who run the case. */
const seesObservers: readonly Role[] = ['moderator', 'team']

async function peopleOf(store: Store, found: StoredCase, callerRole: Role, now: Date): Promise<PeopleOfCase> {
  const [granted, authors] = await Promise.all([store.listGrantsCovering(found.id), store.listAuthors(found.id)])
  const participants = new Map<string, Participant>()
  const grantsOf = grantsByParticipant(granted)
  for (const { participant } of [...granted, ...authors]) participants.set(participant.id, participant)
  const wrote = new Set(authors.map(({ participant }) => participant.id))
  const people = [...participants.values()].map(({ id, name, affiliation }) => ({
    id,
    name,
    affiliation,
    role: accessBy(grantsOf.get(id) ?? [], now).roleIn(found) ?? null,
  }))
  const isListed = ({ id, role }: { id: string; role: Role | null }) =>
    wrote.has(id) || (role !== null && (role !== 'observer' || seesObservers.includes(callerRole)))
  return { people: people.filter(isListed) }
}
