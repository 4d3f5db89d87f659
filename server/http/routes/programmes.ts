import { generateKeyBetween } from 'fractional-indexing'
import { mayInProgramme, type ProgrammeAct } from '../../../lib/board/programme-rights.ts'
import {
  BringOn,
  CaseOrder,
  CaseSlot,
  NewCase,
  NewProgramme,
  type ProgrammeList,
} from '../../../lib/interchange/api.ts'
import {
  onNowFor,
  programmeView,
  readProgramme,
  visibleCases,
  type WholeProgramme,
  withoutOnNow,
} from '../../meeting/programme-view.ts'
import { newId } from '../../people/identifiers.ts'
import type { Caller } from '../../people/people.ts'
import type { Programme } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { created, ok, type Reply, refuse } from '../reply.ts'
import { get, owner, post, type Route, signedIn } from '../routes.ts'

/** Programmes (a day's cases in order), new cases in them, and which case is on. */
export function programmeRoutes(parts: ApiParts): readonly Route[] {
  const { store, now, programmeChanged } = parts
  return [
    get('/api/programmes', signedIn, async ({ caller: { access } }) => {
      const [programmes, cases] = await Promise.all([store.listProgrammes(), store.listCases()])
      const visible = programmes.filter((programme) => {
        const own = cases.filter((each) => each.programme === programme.id)
        return programmeView({ programme, cases: own }, access) !== undefined
      })
      const listed = visible.map((each) => ({ ...withoutOnNow(each), onNow: onNowFor(each, cases, access) }))
      return ok({ programmes: listed } satisfies ProgrammeList)
    }),
    post('/api/programmes', owner, NewProgramme, async ({ body }) => {
      const programme: Programme = { id: newId(), label: body.label, createdAt: now().toISOString() }
      await store.createProgramme(programme)
      return created(programme)
    }),
    get('/api/programmes/:id', signedIn, async ({ caller, params }) => {
      const whole = await readProgramme(store, params.id ?? '')
      const view = whole && programmeView(whole, caller.access)
      return view === undefined ? refuse('not-permitted') : ok(view)
    }),
    post('/api/programmes/:id/cases', owner, NewCase, async ({ caller, params, body }) => {
      const whole = await readProgramme(store, params.id ?? '')
      if (whole === undefined) return refuse('not-found')
      const id = newId()
      await store.createCase({
        id,
        programme: whole.programme.id,
        label: body.label,
        rank: generateKeyBetween(whole.cases.at(-1)?.rank ?? null, null),
        createdAt: now().toISOString(),
      })
      programmeChanged(whole.programme.id)
      const stored = await store.findCase(id)
      return created(visibleCases(stored === null ? [] : [stored], caller.access)[0])
    }),
    ...leadingRoutes(parts),
  ]
}

/** What the moderator of a programme does with its day. Everybody who follows it is told at once. */
function leadingRoutes({ store, now, programmeChanged, hasConsent }: ApiParts): readonly Route[] {
  /** Carries out what the caller may do with a programme, and answers with the programme as it is then. */
  const act = async (
    wanted: ProgrammeAct,
    { caller, id = '' }: { readonly caller: Caller; readonly id: string | undefined },
    change: (whole: WholeProgramme) => Promise<'done' | 'not-found' | 'no-consent'>,
  ): Promise<Reply> => {
    if (!mayInProgramme(wanted, caller.access.roleInProgramme(id))) return refuse('not-permitted')
    const whole = await readProgramme(store, id)
    const outcome = whole === undefined ? 'not-found' : await change(whole)
    if (outcome !== 'done') return refuse(outcome)
    programmeChanged(id)
    const after = await readProgramme(store, id)
    return ok(after && programmeView(after, caller.access))
  }
  return [
    post('/api/programmes/:id/order', signedIn, CaseOrder, ({ caller, params: { id }, body }) =>
      act('arrange', { caller, id }, async ({ programme }) => {
        await store.orderCases(programme.id, body.cases)
        return 'done'
      }),
    ),
    post('/api/programmes/:id/cases/:case/slot', signedIn, CaseSlot, ({ caller, params, body }) =>
      act('arrange', { caller, id: params.id }, async ({ cases }) => {
        const found = cases.find(({ id }) => id === params.case)
        if (found === undefined) return 'not-found'
        await store.saveSlot(found.id, body)
        return 'done'
      }),
    ),
    post('/api/programmes/:id/now', signedIn, BringOn, ({ caller, params: { id }, body }) =>
      act('lead', { caller, id }, async (whole) => {
        const wanted = body.kind === 'case' ? body.id : null
        if (wanted !== null && !whole.cases.some((each) => each.id === wanted)) return 'not-found'
        if (wanted !== null && !(await hasConsent(wanted))) return 'no-consent'
        // What is on already stays on since when it was brought on.
        if (wanted !== caseOn(whole)) await store.bringOn(whole.programme.id, wanted, now().toISOString())
        return 'done'
      }),
    ),
  ]
}

const caseOn = ({ programme: { onNow } }: WholeProgramme): string | null => (onNow.isOn ? onNow.lastOn : null)
