import { generateKeyBetween } from 'fractional-indexing'
import { NewCase, NewProgramme, type ProgrammeDetail, type ProgrammeList } from '../../../lib/interchange/api.ts'
import type { Access } from '../../people/access.ts'
import { newId } from '../../people/identifiers.ts'
import type { Programme, StoredCase } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { created, ok, refuse } from '../reply.ts'
import { get, owner, post, type Route, signedIn } from '../routes.ts'
import { visibleCases } from './cases.ts'

/** Programmes (a day's cases in order) and new cases in them. */
export function programmeRoutes({ store, now }: ApiParts): readonly Route[] {
  const find = async (id: string) => (await store.listProgrammes()).find((programme) => programme.id === id)
  const casesOf = async (id: string) => (await store.listCases()).filter(({ programme }) => programme === id)
  return [
    get('/api/programmes', signedIn, async ({ caller }) => {
      const [programmes, cases] = await Promise.all([store.listProgrammes(), store.listCases()])
      const visible = programmes.filter((programme) => isVisible(programme, cases, caller.access))
      return ok({ programmes: visible } satisfies ProgrammeList)
    }),
    post('/api/programmes', owner, NewProgramme, async ({ body }) => {
      const programme: Programme = { id: newId(), label: body.label, createdAt: now().toISOString() }
      await store.createProgramme(programme)
      return created(programme)
    }),
    get('/api/programmes/:id', signedIn, async ({ caller, params }) => {
      const id = params.id ?? ''
      const [programme, cases] = await Promise.all([find(id), casesOf(id)])
      if (programme === undefined || !isVisible(programme, cases, caller.access)) return refuse('not-permitted')
      return ok({ programme, cases: visibleCases(cases, caller.access) } satisfies ProgrammeDetail)
    }),
    post('/api/programmes/:id/cases', owner, NewCase, async ({ caller, params, body }) => {
      const programme = await find(params.id ?? '')
      if (programme === undefined) return refuse('not-found')
      const last = (await casesOf(programme.id)).at(-1)
      const id = newId()
      await store.createCase({
        id,
        programme: programme.id,
        label: body.label,
        rank: generateKeyBetween(last?.rank ?? null, null),
        createdAt: now().toISOString(),
      })
      const stored = (await casesOf(programme.id)).filter((each) => each.id === id)
      return created(visibleCases(stored, caller.access)[0])
    }),
  ]
}

const isVisible = ({ id }: Programme, cases: readonly StoredCase[], access: Access): boolean =>
  access.coversProgramme(id) || cases.some((each) => each.programme === id && access.roleIn(each) !== undefined)
