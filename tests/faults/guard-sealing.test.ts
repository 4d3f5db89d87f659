import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { freezeScenario, sealForecast } from '../../lib/board/edits/forecast.ts'
import { closeTest, setPoint } from '../../lib/board/edits/hearing.ts'
import { changePlan } from '../../lib/board/edits/plan.ts'
import { changeRecord, type Pen, putRecord, recordMap } from '../../lib/board/edits/writing.ts'
import { tableOf } from '../../lib/board/layout.ts'
import { readTable } from '../../lib/board/reading.ts'
import type { KindName } from '../../lib/board/records.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { mostSealedAtOnce } from '../../server/guard/proposal.ts'
import { sealer } from '../../server/guard/sealer.ts'
import { profileFor, sealedEar, sealedOption } from '../fixtures/sealing-records.ts'
import { LightClient, updateOf } from '../support/light-client.ts'
import { sampleRecord } from '../support/sample-records.ts'
import { type SyncServer, startSyncServer } from '../support/sync-server.ts'

/** G10: a sealed record is what the record gives on the day, and nobody touches it afterwards. Over a real socket. */
let server: SyncServer
let cases = 0
let caseId = ''
const clients: LightClient[] = []
const now = () => new Date().toISOString()

beforeAll(async () => {
  server = await startSyncServer()
  await server.store.createProgramme({ id: 'programme', label: 'Programme', createdAt: now() })
})
afterAll(() => server.stop())
beforeEach(async () => {
  for (const client of clients.splice(0)) client.close()
  caseId = `sealing-${++cases}`
  const place = { id: caseId, programme: 'programme', label: caseId, rank: `a${cases}`, createdAt: now() }
  await server.store.createCase(place)
  const seeded = new Y.Doc()
  for (const [kind, record] of Object.entries(sealedEar('p-third', now())))
    putRecord(seeded, kind as KindName, record as never)
  await server.seed(documentName('record', caseId), seeded)
})

async function join(as = 'p-team', role = 'team'): Promise<LightClient> {
  const client = await LightClient.join(
    `${server.url}/sync/${documentName('record', caseId)}?own=1&as=${as}&role=${role}`,
  )
  clients.push(client)
  return client
}

let made = 0
const pen: Pen = { participant: 'p-team', now: () => new Date(), newId: () => `sealed-${++made}` }
const wanted = { option: sealedOption, profile: profileFor(sealedOption), actuator: 'floating-mass' } as const
const seal = (doc: Y.Doc) => {
  const sealing = sealForecast(doc, pen, sealer, wanted)
  if (!sealing.ok) throw new Error(`nothing to seal: ${sealing.reason}`)
}
const freeze = (doc: Y.Doc) =>
  freezeScenario(doc, pen, sealer, {
    ...wanted,
    title: 'The footplate stiffens',
    scenario: { fixation: { at: 'stapes', times: 10 } },
  })

type Tree = Record<string, unknown>
/** A sample of a sealed kind with one place of it spoilt. */
function spoilt(kind: 'forecasts' | 'scenarios' | 'profiles', spoil: (record: Tree) => void) {
  const record = structuredClone(sampleRecord(kind, `${kind}-new`, 'p-team', now()))
  spoil(record)
  return (doc: Y.Doc) => putRecord(doc, kind, record as never)
}
const at = (tree: unknown, ...path: (string | number)[]): Tree =>
  path.reduce<unknown>((node, key) => (node as Tree)[key], tree) as Tree

/** Adds to the number in a field. */
const shift =
  (by: number, field: string, ...path: (string | number)[]) =>
  (record: Tree): void => {
    const node = at(record, ...path)
    node[field] = Math.round(((node[field] as number) + by) * 100) / 100
  }

/** Sets a field, or takes it away. */
const put =
  (value: unknown, field: string, ...path: (string | number)[]) =>
  (record: Tree): void => {
    const node = at(record, ...path)
    if (value === undefined) delete node[field]
    else node[field] = value
  }

describe('[G10] a forecast is computed again', () => {
  it('is taken as its page computed it, and shown to the others', async () => {
    const [team, panel] = [await join(), await join('p-panel', 'panel')]
    expect(await team.attempt(seal)).toBe('stored')
    await panel.until(() => readTable(panel.doc, 'forecasts').length === 1)
    expect(readTable(panel.doc, 'forecasts')[0]).toMatchObject({ author: 'p-team', content: { option: sealedOption } })
  })

  it.each<[string, (record: Tree) => void, string]>([
    ['the mean made 0.1 dB better', shift(-0.1, 'value', 'content', 'fourTone', 'aidedThreshold'), 'fourTone'],
    ['one end of an interval', shift(0.1, 'low', 'content', 'byFrequency', 1, 'aidedThreshold', 'interval'), 'low'],
    ['the spread made wider', shift(0.1, 'sd', 'content', 'byFrequency', 1, 'effectiveGain', 'distribution'), 'sd'],
    ['a word score', shift(1, 'value', 'content', 'wordScores', 0, 'score'), 'wordScores'],
    ['another model version', put(99, 'modelVersion', 'content'), 'modelVersion'],
    ['another profile version', put(99, 'version', 'content', 'profile'), 'profile'],
    ['its frequencies left out', put([], 'byFrequency', 'content'), 'byFrequency'],
  ])('is refused with %s', async (_, spoil, what) => {
    const team = await join()
    expect(await team.attempt(spoilt('forecasts', spoil))).toMatchObject({
      code: 'forecast-differs',
      facts: { what: expect.stringContaining(what) },
    })
    expect(await team.attempt(seal)).toBe('stored')
  })

  it('a scenario is refused with its answer made milder', async () => {
    const team = await join()
    const milder = spoilt('scenarios', shift(-0.1, 'value', 'answer', 'meanAidedThreshold'))
    expect(await team.attempt(milder)).toMatchObject({
      code: 'forecast-differs',
      facts: { what: 'answer.meanAidedThreshold.value' },
    })
    expect(await team.attempt(freeze)).toBe('stored')
  })
})

describe('[G10] a forecast is of the record as it stands', () => {
  it.each<[string, (record: Tree) => void]>([
    ['a threshold', shift(5, 'level', 'content', 'inputs', 'bone', 1)],
    ['the other ear', put('left', 'ear', 'content', 'inputs')],
    ['an ear better than the plan says', put(undefined, 'scenario', 'content')],
    [
      'a fixation that no scenario states',
      put({ fixation: { at: 'stapes', times: 3 } }, 'scenario', 'content', 'scenario'),
    ],
    ['ears that nobody can look up', put(40, 'ownEars', 'content', 'inputs')],
  ])('is refused with %s', async (_, spoil) => {
    const team = await join()
    expect(await team.attempt(spoilt('forecasts', spoil))).toMatchObject({ code: 'forecast-stale-inputs' })
  })

  it.each<[string, (doc: Y.Doc) => void]>([
    [
      'a test that changed meanwhile',
      (doc) => setPoint(doc, 'tests-sealed', 'bone.masked.1000', { kind: 'heard', level: asDbHl(45) }),
    ],
    ['a test that no longer counts', (doc) => closeTest(doc, pen, 'tests-sealed', 'entered-in-error', 'wrong ear')],
    ['a plan that changed meanwhile', (doc) => changePlan(doc, pen, 'right', { earChanges: undefined })],
  ])('is refused after %s', async (_, move) => {
    const [team, other] = [await join(), await join()]
    const sealedBefore = updateOf(team.doc, seal)
    expect(await other.attempt(move)).toBe('stored')
    expect(await team.send(sealedBefore)).toMatchObject({ code: 'forecast-stale-inputs' })
  })

  it('is refused together with the change of the test that would make it right afterwards', async () => {
    const team = await join()
    const answer = await team.attempt((doc) => {
      seal(doc)
      setPoint(doc, 'tests-sealed', 'bone.masked.1000', { kind: 'heard', level: asDbHl(45) })
    })
    expect(answer).toMatchObject({ code: 'forecast-stale-inputs' })
  })

  it('under a scenario is of that scenario and no other', async () => {
    const team = await join()
    expect(await team.attempt(freeze)).toBe('stored')
    const [scenario] = readTable(team.doc, 'scenarios')
    const borrowed = spoilt('forecasts', put(scenario?.id, 'scenario'))
    expect(await team.attempt(borrowed)).toMatchObject({ code: 'forecast-stale-inputs' })
    expect(
      await team.attempt((doc) => void sealForecast(doc, pen, sealer, { ...wanted, scenario: scenario?.id })),
    ).toBe('stored')
    const nowhere = spoilt('forecasts', put('nowhere', 'scenario'))
    expect(await team.attempt(nowhere)).toMatchObject({ code: 'missing-reference' })
  })
})

describe('[G10] a forecast comes before the outcome', () => {
  const today = () => now().slice(0, 10)
  const aided =
    (day: string, patch: Tree = {}) =>
    (doc: Y.Doc) =>
      putRecord(doc, 'tests', {
        ...sampleRecord('tests', 'tests-aided', 'p-team', now()),
        condition: 'aided',
        performedOn: day,
        points: {},
        ...patch,
      } as never)
  const operate = (doc: Y.Doc) =>
    putRecord(doc, 'steps', { ...sampleRecord('steps', 'steps-a', 'p-team', now()), startedAt: now() } as never)

  it('is refused once the ear was tested with the device', async () => {
    const team = await join()
    expect([await team.attempt(operate), await team.attempt(aided(today()))]).toEqual(['stored', 'stored'])
    expect(await team.attempt(seal)).toMatchObject({ code: 'forecast-after-outcome', facts: { ear: 'right' } })
  })

  it('is refused in follow-up also when no step was ever begun', async () => {
    const team = await join()
    expect(await team.attempt(aided('2026-01-01'))).toBe('stored')
    const follow = { phase: 'follow-up', author: 'p-team', at: now() } as const
    expect(await team.attempt((doc) => changeRecord(doc, 'header', 'only', follow))).toBe('stored')
    expect(await team.attempt(seal)).toMatchObject({ code: 'forecast-after-outcome' })
  })

  it.each<[string, (doc: Y.Doc) => void]>([
    ['a trial before the operation', aided('2026-01-01')],
    ['a test of the other ear', aided(today(), { ear: 'left' })],
    ['a test entered in error', aided(today())],
  ])('is taken after %s', async (name, test) => {
    const team = await join()
    expect([await team.attempt(operate), await team.attempt(test)]).toEqual(['stored', 'stored'])
    if (name.endsWith('error'))
      expect(await team.attempt((doc) => closeTest(doc, pen, 'tests-aided', 'entered-in-error', 'wrong ear'))).toBe(
        'stored',
      )
    expect(await team.attempt(seal)).toBe('stored')
  })
})

describe('[G10] what is sealed stays', () => {
  it.each(['team', 'moderator'])('against its author and everybody else, as %s', async (role) => {
    const team = await join()
    expect(await team.attempt(seal)).toBe('stored')
    const [sealed] = readTable(team.doc, 'forecasts')
    const id = sealed?.id ?? ''
    const hand = await join(role === 'team' ? 'p-team' : 'p-mod', role)
    const edits: ((doc: Y.Doc) => void)[] = [
      (doc) => tableOf(doc, 'forecasts').delete(id),
      (doc) => recordMap(doc, 'forecasts', id).set('at', now()),
      (doc) => recordMap(doc, 'forecasts', id).set('follows', 'nothing'),
      (doc) => putRecord(doc, 'forecasts', { ...sealed, at: now() } as never),
    ]
    for (const edit of edits)
      expect(await hand.attempt(edit)).toMatchObject({ code: 'sealed-record', facts: { kind: 'forecasts' } })
    expect(readTable((await join('p-panel', 'panel')).doc, 'forecasts')).toEqual([sealed])
  })

  it('is followed in one line, also by two at once', async () => {
    const [one, two] = [await join(), await join()]
    expect(await one.attempt(seal)).toBe('stored')
    const unfollowed = spoilt('forecasts', () => undefined)
    expect(await one.attempt(unfollowed)).toMatchObject({ code: 'forecast-not-following' })
    await two.until(() => readTable(two.doc, 'forecasts').length === 1)
    const answers = await Promise.all([one.attempt(seal), two.attempt(seal)])
    expect(answers.filter((answer) => answer === 'stored')).toHaveLength(1)
    expect(answers).toContainEqual(expect.objectContaining({ code: 'already-followed' }))
  })

  it('is sealed by the team and not by the moderator', async () => {
    const moderator = await join('p-mod', 'moderator')
    const byModerator = { ...sampleRecord('forecasts', 'forecasts-new', 'p-mod', now()) } as never
    expect(await moderator.attempt((doc) => putRecord(doc, 'forecasts', byModerator))).toMatchObject({
      code: 'not-permitted',
    })
  })

  it('a profile is entered once, and not under the name of one of the board', async () => {
    const team = await join()
    const own = spoilt('profiles', () => undefined)
    expect(await team.attempt(own)).toBe('stored')
    const again = (doc: Y.Doc) =>
      putRecord(doc, 'profiles', sampleRecord('profiles', 'profiles-2', 'p-team', now()) as never)
    expect(await team.attempt(again)).toMatchObject({ code: 'second-profile' })
    const profile = { ...profileFor(sealedOption) }
    expect(
      await team.attempt((doc) =>
        putRecord(doc, 'profiles', { ...sampleRecord('profiles', 'p-3', 'p-team', now()), profile } as never),
      ),
    ).toMatchObject({ code: 'second-profile' })
  })
})

describe('[G10] bounds', () => {
  it.each<[string, (record: Tree) => void, string]>([
    ['NaN', put(Number.NaN, 'value', 'content', 'fourTone', 'aidedThreshold'), 'unknown-place'],
    ['infinity', put(Number.POSITIVE_INFINITY, 'value', 'content', 'fourTone', 'aidedThreshold'), 'unknown-place'],
    ['a million frequencies', put(new Array(1_000_000).fill(0), 'byFrequency', 'content'), 'unknown-place'],
    [
      'a million changes of the ear',
      put(new Array(1_000_000).fill(0), 'found', 'content', 'scenario'),
      'unknown-place',
    ],
    ['a field of its own', put('x', 'note', 'content'), 'invalid-record'],
    ['a number finer than is sealed', put(30.001, 'value', 'content', 'fourTone', 'aidedThreshold'), 'invalid-record'],
  ])('a forecast is refused with %s, and the next edit passes', async (_, spoil, code) => {
    const team = await join()
    const started = performance.now()
    expect(await team.attempt(spoilt('forecasts', spoil))).toMatchObject({ code })
    expect(performance.now() - started).toBeLessThan(3000)
    expect(await team.attempt(seal)).toBe('stored')
  })

  it('takes four at once and not more', async () => {
    const team = await join()
    const many = (count: number) => (doc: Y.Doc) => {
      for (let index = 0; index < count; index++) freeze(doc)
    }
    expect(await team.attempt(many(mostSealedAtOnce + 1))).toMatchObject({ code: 'too-many-at-once' })
    expect(await team.attempt(many(mostSealedAtOnce))).toBe('stored')
  })
})
