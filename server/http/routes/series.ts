import { rolesWithSeries } from '../../../lib/board/roles.ts'
import type { ExperienceAnswer } from '../../../lib/interchange/experience.ts'
import { readFilter } from '../../../lib/interchange/series-filter.ts'
import type { Access } from '../../people/access.ts'
import { learnedFrom } from '../../series/learned-from.ts'
import type { StoredCase } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { ok, refuse } from '../reply.ts'
import { get, type Route, signedIn } from '../routes.ts'

/** Outcomes over the cases that the caller may see. */
export function seriesRoutes({ store, series }: ApiParts): readonly Route[] {
  const casesOf = async (access: Access): Promise<readonly StoredCase[]> => {
    const cases = await store.listCases()
    series.keepOnly(idsOf(cases))
    return cases.filter((each) => {
      const role = access.roleIn(each)
      return role !== undefined && rolesWithSeries.includes(role)
    })
  }
  return [
    get('/api/series', signedIn, async ({ caller, request }) => {
      const cases = await casesOf(caller.access)
      if (cases.length === 0) return refuse('not-permitted')
      const read = readFilter(new URL(request.url ?? '/', 'http://localhost').searchParams)
      if (!read.ok) return refuse('bad-request', `The filter "${read.field}" cannot be "${read.value}".`)
      const { unreadable, ...answer } = await series.answer(idsOf(cases), read.filter)
      const labels = new Map(cases.map(({ id, label }) => [id, label]))
      return ok({ ...answer, unreadable: unreadable.map((id) => ({ id, label: labels.get(id) ?? id })) })
    }),
    get('/api/cases/:id/experience', signedIn, async ({ caller, params }) => {
      const cases = await casesOf(caller.access)
      if (!cases.some(({ id }) => id === params.id)) return refuse('not-permitted')
      const known = await series.outcomesOf(idsOf(cases))
      const own = known.find(({ id }) => id === params.id)
      const others = known.filter(({ id }) => id !== params.id)
      return ok({ ears: [...(await learnedFrom(others, own?.patient))] } satisfies ExperienceAnswer)
    }),
  ]
}

const idsOf = (cases: readonly StoredCase[]): readonly string[] => cases.map(({ id }) => id)
