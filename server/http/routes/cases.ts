import { documentName } from '../../../lib/board/documents.ts'
import type { Role } from '../../../lib/board/roles.ts'
import type { CaseDetail, CaseList, CaseSummary, PeopleOfCase } from '../../../lib/interchange/api.ts'
import { type Access, accessBy } from '../../people/access.ts'
import type { Grant, Participant, Store, StoredCase } from '../../store/store.ts'
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
      const detail = await caseDetail(store, params.id ?? '', caller.access)
      return detail === undefined ? refuse('not-permitted') : ok(detail)
    }),
    get('/api/cases/:id/people', signedIn, async ({ caller, params }) => {
      const found = await store.findCase(params.id ?? '')
      const role = found === null ? undefined : caller.access.roleIn(found)
      if (found === null || role === undefined) return refuse('not-permitted')
      return ok(await peopleOf(store, found, role, now()))
    }),
  ]
}

/** The caller's cases, each with the caller's role in it. */
export function visibleCases(cases: readonly StoredCase[], access: Access): CaseSummary[] {
  return cases.flatMap((found) => {
    const role = access.roleIn(found)
    return role === undefined ? [] : [{ ...found, role }]
  })
}

async function caseDetail(store: Store, id: string, access: Access): Promise<CaseDetail | undefined> {
  const found = await store.findCase(id)
  const role = found === null ? undefined : access.roleIn(found)
  const programme = (await store.listProgrammes()).find((each) => each.id === found?.programme)
  if (found === null || role === undefined || programme === undefined) return undefined
  const documents = { record: documentName('record', id), floor: documentName('floor', id) }
  return { case: { ...found, role }, programme, documents }
}

/** Observers may be hundreds and are counted, not listed, except to those who run the case. */
const seesObservers: readonly Role[] = ['moderator', 'team']

async function peopleOf(store: Store, found: StoredCase, callerRole: Role, now: Date): Promise<PeopleOfCase> {
  const [granted, authors] = await Promise.all([store.listGrantsCovering(found.id), store.listAuthors(found.id)])
  const participants = new Map<string, Participant>()
  const grantsOf = groupGrants(granted)
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

function groupGrants(granted: readonly { readonly grant: Grant; readonly participant: Participant }[]) {
  const byParticipant = new Map<string, Grant[]>()
  for (const { grant, participant } of granted)
    byParticipant.set(participant.id, [...(byParticipant.get(participant.id) ?? []), grant])
  return byParticipant
}
