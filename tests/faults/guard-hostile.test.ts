import fc from 'fast-check'
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { enterTest, setPoint, verifyTest } from '../../lib/board/edits/hearing.ts'
import { changeRecord, type Pen, putRecord, recordMap } from '../../lib/board/edits/writing.ts'
import { readTable } from '../../lib/board/reading.ts'
import { closeCode } from '../../lib/board/wire.ts'
import { limits } from '../../server/room/limits.ts'
import { LightClient, updateOf } from '../support/light-client.ts'
import { sampleId, sampleQuestion, sampleRecord } from '../support/sample-records.ts'
import { type SyncServer, startSyncServer } from '../support/sync-server.ts'

/** G4 to G9: valid updates that break rules, and bytes that are no updates. Nobody else ever sees any of it. */
let server: SyncServer
let cases = 0
let caseId = ''
const clients: LightClient[] = []

beforeAll(async () => {
  server = await startSyncServer()
  await server.store.createProgramme({ id: 'programme', label: 'Programme', createdAt: new Date().toISOString() })
})
afterAll(() => server.stop())
beforeEach(async () => {
  for (const client of clients.splice(0)) client.close()
  caseId = `hostile-${++cases}`
  await server.store.createCase({
    id: caseId,
    programme: 'programme',
    label: caseId,
    rank: `a${cases}`,
    createdAt: new Date().toISOString(),
  })
})

async function join(as: string, role: string, kind: 'record' | 'floor' = 'record'): Promise<LightClient> {
  const client = await LightClient.join(`${server.url}/sync/${documentName(kind, caseId)}?own=1&as=${as}&role=${role}`)
  clients.push(client)
  return client
}

let made = 0
const penOf = (participant: string): Pen => ({ participant, now: () => new Date(), newId: () => `r${++made}` })
const freshTest = {
  ear: 'right',
  condition: 'unaided',
  performedOn: '2026-05-02',
  origin: 'typed',
  note: '',
  points: {},
} as const
const freshRecord = (kind: Parameters<typeof sampleRecord>[0], author: string) =>
  sampleRecord(kind, sampleId(kind, author), author, new Date().toISOString()) as never

describe('[G4] an update is taken whole or not at all', () => {
  it('refuses one whose dependencies are missing, and it never takes effect later', async () => {
    const [attacker, victim] = await Promise.all([join('p-team', 'team'), join('p-mod', 'moderator')])
    const doc = new Y.Doc()
    const updates: Uint8Array[] = []
    doc.on('update', (update: Uint8Array) => updates.push(update))
    putRecord(doc, 'steps', sampleRecord('steps', 'steps-a', 'p-team', new Date().toISOString()) as never)
    recordMap(doc, 'steps', 'steps-a').set('title', 'second')
    expect(await attacker.send(updates[1] as Uint8Array)).toMatchObject({ code: 'incomplete-update' })
    expect(await victim.attempt((copy) => putRecord(copy, 'notes', freshRecord('notes', 'p-mod')))).toBe('stored')
    await attacker.until(() => readTable(attacker.doc, 'notes').length === 1)
    expect(readTable(attacker.doc, 'steps')).toEqual([])
    expect(await attacker.send(updates[0] as Uint8Array)).toBe('stored')
  })

  it('refuses the good half together with the bad half, and the next edit passes', async () => {
    const [team, moderator] = await Promise.all([join('p-team', 'team'), join('p-mod', 'moderator')])
    const mixed = await team.attempt((copy) => {
      putRecord(copy, 'steps', freshRecord('steps', 'p-team'))
      putRecord(copy, 'mainScreen', freshRecord('mainScreen', 'p-team'))
    })
    expect(mixed).toMatchObject({ code: 'not-permitted', facts: { role: 'team', kind: 'mainScreen' } })
    expect(server.logged).toContain('edit-refused')
    expect(await team.attempt((copy) => putRecord(copy, 'notes', freshRecord('notes', 'p-team')))).toBe('stored')
    await moderator.until(() => readTable(moderator.doc, 'notes').length === 1)
    expect(readTable(moderator.doc, 'steps')).toEqual([])
  })

  it('stores a frame that comes twice once', async () => {
    const team = await join('p-team', 'team')
    const update = updateOf(team.doc, (copy) => putRecord(copy, 'steps', freshRecord('steps', 'p-team')))
    expect([await team.send(update), await team.send(update)]).toEqual(['stored', 'stored'])
    expect(await server.store.log(documentName('record', caseId), 0, 10)).toHaveLength(1)
  })
})

describe('[G2] a record taken away and made again in one update', () => {
  it('stands where its writer may do both, as a backing toggled while the link was down', async () => {
    const asker = await join('p-ask', 'panel', 'floor')
    const question = { ...(freshRecord('questions', 'p-ask') as object), id: sampleQuestion }
    expect(await asker.attempt((copy) => putRecord(copy, 'questions', question as never))).toBe('stored')
    const backer = await join('p-back', 'panel', 'floor')
    const backing = (agoMs: number) =>
      ({ ...(freshRecord('backings', 'p-back') as object), at: new Date(Date.now() - agoMs).toISOString() }) as never
    expect(await backer.attempt((copy) => putRecord(copy, 'backings', backing(5000)))).toBe('stored')
    expect(await backer.attempt((copy) => putRecord(copy, 'backings', backing(0)))).toBe('stored')
  })

  it('is refused where fields can change, although its writer may take it away: an answer is not undone so', async () => {
    const asker = await join('p-ask', 'panel', 'floor')
    expect(await asker.attempt((copy) => putRecord(copy, 'questions', freshRecord('questions', 'p-ask')))).toBe(
      'stored',
    )
    const again = { ...(freshRecord('questions', 'p-ask') as object), at: new Date(Date.now() - 5000).toISOString() }
    expect(await asker.attempt((copy) => putRecord(copy, 'questions', again as never))).toMatchObject({
      code: 'fixed-field',
    })
  })
})

describe('[G5] a CRDT client id belongs to who used it first', () => {
  it('refuses another participant under it, also after the room was read anew', async () => {
    const [first, second] = await Promise.all([join('p-one', 'team'), join('p-two', 'team')])
    const doc = new Y.Doc()
    putRecord(doc, 'steps', freshRecord('steps', 'p-one'))
    expect(await first.send(Y.encodeStateAsUpdate(doc))).toBe('stored')
    const forged = new Y.Doc()
    Y.applyUpdate(forged, Y.encodeStateAsUpdate(doc))
    forged.clientID = doc.clientID
    putRecord(forged, 'notes', freshRecord('notes', 'p-two'))
    expect(await second.send(Y.encodeStateAsUpdate(forged, Y.encodeStateVector(doc)))).toMatchObject({
      code: 'foreign-client',
    })
    expect((await server.store.load(documentName('record', caseId))).clientOwners.get(doc.clientID)).toBe('p-one')
  })
})

describe('[G6] content stands where the layout says, and is what it says', () => {
  const hidden: [string, (doc: Y.Doc) => void][] = [
    ['an unknown root', (doc) => doc.getMap('secret').set('a', 1)],
    ['a table of the other document', (doc) => putRecord(doc, 'questions', freshRecord('questions', 'p-team'))],
    ['a list in place of a table', (doc) => doc.getArray('notes').push(['x'])],
    ['text in place of a table', (doc) => doc.getText('notes').insert(0, 'x')],
    ['a plain object in place of a record', (doc) => doc.getMap('notes').set('n1', freshRecord('notes', 'p-team'))],
    ['a document inside a record', (doc) => doc.getMap('steps').set('s1', new Y.Map([['title', new Y.Doc()]]))],
    ['bytes in a field', (doc) => doc.getMap('steps').set('s1', new Y.Map([['title', new Uint8Array(4)]]))],
    ['a shared type in a plain field', (doc) => doc.getMap('steps').set('s1', new Y.Map([['title', new Y.Text('x')]]))],
    ['a prototype key', (doc) => doc.getMap('steps').set('s1', new Y.Map([['__proto__', { role: 'moderator' }]]))],
    ['a prototype key as id', (doc) => doc.getMap('steps').set('__proto__', new Y.Map([['title', 'x']]))],
    [
      'a field that the schema lacks',
      (doc) => putRecord(doc, 'steps', { ...(freshRecord('steps', 'p-team') as object), script: 'x' } as never),
    ],
    ['a link in a text', (doc) => noteWith(doc, (block) => block.insert(0, [linked()]))],
    ['an unknown block in a text', (doc) => noteWith(doc, (_, body) => body.insert(0, [new Y.XmlElement('script')]))],
    ['an attribute on a block', (doc) => noteWith(doc, (block) => block.setAttribute('onclick', 'x'))],
  ]
  const linked = () => {
    const text = new Y.XmlText()
    text.insert(0, 'here', { link: { href: 'javascript:alert(1)' } })
    return text
  }
  function noteWith(doc: Y.Doc, spoil: (block: Y.XmlElement, body: Y.XmlFragment) => void) {
    putRecord(doc, 'notes', {
      ...(freshRecord('notes', 'p-team') as object),
      body: [{ type: 'paragraph', content: [] }],
    } as never)
    const body = recordMap(doc, 'notes', 'notes-new').get('body') as Y.XmlFragment
    spoil(body.get(0) as Y.XmlElement, body)
  }

  it.each(hidden)('refuses %s', async (_, edit) => {
    const [attacker, witness] = await Promise.all([join('p-team', 'team'), join('p-mod', 'moderator')])
    expect(await attacker.attempt(edit)).toMatchObject({
      code: expect.stringMatching(/^(unknown-place|invalid-record)$/),
    })
    expect(await witness.attempt((copy) => putRecord(copy, 'plan', freshRecord('plan', 'p-mod')))).toBe('stored')
    expect([...witness.doc.share.keys()].filter((root) => root === 'secret')).toEqual([])
    expect(Object.hasOwn(Object.prototype, 'role')).toBe(false)
  })
})

describe('[G7] nobody writes in another name or at another time', () => {
  it('refuses a forged author, a forged verifier and impossible times', async () => {
    const team = await join('p-team', 'team')
    const step = freshRecord('steps', 'p-team') as Record<string, unknown>
    const put = (patch: Record<string, unknown>) =>
      team.attempt((copy) => putRecord(copy, 'steps', { ...step, ...patch } as never))
    expect(await put({ author: 'p-mod' })).toMatchObject({ code: 'wrong-author' })
    expect(await put({ at: new Date(Date.now() + 3 * 3_600_000).toISOString() })).toMatchObject({ code: 'wrong-time' })
    expect(await put({ at: '1999-01-01T00:00:00.000Z' })).toMatchObject({ code: 'wrong-time' })
    const test = {
      ...(freshRecord('tests', 'p-team') as object),
      verification: { by: 'p-mod', at: new Date().toISOString() },
    }
    expect(await team.attempt((copy) => putRecord(copy, 'tests', test as never))).toMatchObject({
      code: 'wrong-author',
    })
  })

  it('refuses a restamped header in another name', async () => {
    const [team, moderator] = await Promise.all([join('p-team', 'team'), join('p-mod', 'moderator')])
    expect(await moderator.attempt((copy) => putRecord(copy, 'header', freshRecord('header', 'p-mod')))).toBe('stored')
    await team.until(() => readTable(team.doc, 'header').length === 1)
    expect(
      await team.attempt((copy) => recordMap(copy, 'header', 'only').set('at', '2020-01-01T00:00:00.000Z')),
    ).toMatchObject({ code: 'wrong-author' })
  })
})

describe('[G8] the right record', () => {
  it('keeps one current test per ear and condition, also when two enter one at once', async () => {
    const [one, two] = await Promise.all([join('p-one', 'team'), join('p-two', 'team')])
    const answers = await Promise.all(
      [one, two].map((client, index) =>
        client.attempt((copy) => enterTest(copy, penOf(index === 0 ? 'p-one' : 'p-two'), freshTest, 'newer')),
      ),
    )
    expect(answers.filter((answer) => answer === 'stored')).toHaveLength(1)
    expect(answers).toContainEqual(expect.objectContaining({ code: 'second-current-test' }))
  })

  it('closes a verified test for editing', async () => {
    const team = await join('p-team', 'team')
    const test = sampleId('tests', 'p-team')
    const verified = {
      ...(freshRecord('tests', 'p-team') as object),
      verification: { by: 'p-team', at: new Date().toISOString() },
    }
    expect(await team.attempt((copy) => putRecord(copy, 'tests', verified as never))).toBe('stored')
    await team.until(() => readTable(team.doc, 'tests').length === 1)
    const point = { kind: 'heard', level: 20 } as never
    expect(await team.attempt((copy) => setPoint(copy, test, 'air.unmasked.500', point))).toMatchObject({
      code: 'verified-test',
    })
    expect(await team.attempt((copy) => verifyTest(copy, penOf('p-team'), test))).toMatchObject({
      code: 'verified-test',
    })
  })

  it('closes a verified speech test for editing', async () => {
    const team = await join('p-team', 'team')
    const test = sampleId('speechTests', 'p-team')
    const verified = {
      ...(freshRecord('speechTests', 'p-team') as object),
      verification: { by: 'p-team', at: new Date().toISOString() },
    }
    expect(await team.attempt((copy) => putRecord(copy, 'speechTests', verified as never))).toBe('stored')
    await team.until(() => readTable(team.doc, 'speechTests').length === 1)
    expect(await team.attempt((copy) => changeRecord(copy, 'speechTests', test, { right: 20 }))).toMatchObject({
      code: 'verified-test',
    })
  })

  it('does not let a case go to theatre without recorded consent', async () => {
    const moderator = await join('p-mod', 'moderator')
    const header = { ...(freshRecord('header', 'p-mod') as object), phase: 'in-theatre' }
    expect(await moderator.attempt((copy) => putRecord(copy, 'header', header as never))).toMatchObject({
      code: 'invalid-record',
    })
  })
})

describe('[G9] bytes that are no updates', () => {
  it('answers an update that declares 30 million structs at once', async () => {
    const [attacker, victim] = await Promise.all([join('p-team', 'team'), join('p-mod', 'moderator')])
    // One client, 30,000,000 structs (varint), client 1, clock 0, and nothing of them.
    const bomb = new Uint8Array([1, 0x80, 0x87, 0xa7, 0x0e, 1, 0])
    const answers = await Promise.all([
      attacker.send(bomb),
      victim.attempt((copy) => putRecord(copy, 'plan', freshRecord('plan', 'p-mod'))),
    ])
    expect(answers).toEqual([expect.objectContaining({ code: 'malformed' }), 'stored'])
  })

  it('survives random frames; whatever is not accepted changes nothing', { timeout: 120_000 }, async () => {
    const witness = await join('p-mod', 'moderator')
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.uint8Array({ minLength: 1, maxLength: 120 }), { minLength: 20, maxLength: 20 }),
        async (frames) => {
          const attacker = await join('p-team', 'team')
          for (const frame of frames) attacker.socket.send(frame)
          await attacker.attempt(() => undefined)
          attacker.close()
        },
      ),
      { numRuns: 100 },
    )
    expect(await witness.attempt((copy) => putRecord(copy, 'plan', freshRecord('plan', 'p-mod')))).toBe('stored')
    expect(await server.store.log(documentName('record', caseId), 0, 10)).toHaveLength(1)
  })
})

describe('[G11] the moment of the picture', () => {
  it('refuses a moment of the picture that no video link explains, and one that is moved afterwards', async () => {
    const [panel, moderator] = await Promise.all([join('p-panel', 'panel', 'floor'), join('p-mod', 'moderator')])
    const ask = (id: string, behindMs: number, aheadMs = 0) => {
      const atMs = Date.now() + aheadMs
      const moments = { at: new Date(atMs).toISOString(), pictureAt: new Date(atMs - behindMs).toISOString() }
      const record = { ...sampleRecord('questions', id, 'p-panel'), ...moments }
      return panel.attempt((copy) => putRecord(copy, 'questions', record as never))
    }
    expect(await ask('q-after', -1)).toMatchObject({ code: 'wrong-picture-time' })
    expect(await ask('q-far', 90_001)).toMatchObject({ code: 'wrong-picture-time' })
    expect(await ask('q-future', 1000, 60_000)).toMatchObject({ code: 'wrong-picture-time' })
    expect(await ask('q-live', 0)).toBe('stored')
    expect(await ask('q-late', 90_000)).toBe('stored')
    expect(
      await panel.attempt((copy) => recordMap(copy, 'questions', 'q-late').set('pictureAt', new Date().toISOString())),
    ).toMatchObject({ code: 'fixed-field' })
    const pin = { ...(freshRecord('annotations', 'p-mod') as object), pictureAt: '2026-01-01T00:00:00.000Z' }
    expect(await moderator.attempt((copy) => putRecord(copy, 'annotations', pin as never))).toMatchObject({
      code: 'wrong-picture-time',
    })
  })

  it('refuses a video delay of somebody else, and one that is none; a second measurement replaces the first', async () => {
    const [one, two] = await Promise.all([join('p-one', 'panel', 'floor'), join('p-two', 'panel', 'floor')])
    const put = (client: LightClient, id: string, author: string, delaysMs: readonly number[]) =>
      client.attempt((copy) => {
        const at = new Date().toISOString()
        putRecord(copy, 'videoDelays', { id, author, at, delaysMs: [...delaysMs], clockErrorMs: 5 })
      })
    expect(await put(one, 'p-two', 'p-one', [1, 2, 3])).toMatchObject({ code: 'invalid-record' })
    expect(await put(one, 'p-two', 'p-two', [1, 2, 3])).toMatchObject({ code: 'wrong-author' })
    expect(await put(one, 'p-one', 'p-one', [-1, 2, 3])).toMatchObject({ code: 'invalid-record' })
    expect(await put(one, 'p-one', 'p-one', [1, 2, 90_001])).toMatchObject({ code: 'invalid-record' })
    expect(await put(one, 'p-one', 'p-one', [1, 2])).toMatchObject({ code: 'invalid-record' })
    expect(await put(one, 'p-one', 'p-one', [1, 2, 3])).toBe('stored')
    expect(await put(one, 'p-one', 'p-one', [4, 5, 6])).toBe('stored')
    await two.until(() => readTable(two.doc, 'videoDelays')[0]?.delaysMs[0] === 4)
    expect(await put(two, 'p-one', 'p-two', [7, 8, 9])).toMatchObject({
      code: expect.stringMatching(/^(fixed-field|invalid-record)$/),
    })
  })
})

describe('[R] bounds of one connection', () => {
  it('[R4] closes a socket that sends a frame over the limit', async () => {
    const team = await join('p-team', 'team')
    team.socket.send(new Uint8Array(limits.frameBytes + 1))
    expect(await team.closed()).toMatchObject({ code: closeCode.tooLarge })
  })

  it('[R5] closes a socket that floods, after its burst', async () => {
    const team = await join('p-team', 'team')
    const closed = team.closed()
    for (let sent = 0; sent <= limits.frameBurst + 50; sent++) void team.send(new Uint8Array([0, 0]))
    expect(await closed).toMatchObject({ code: closeCode.tooFast })
  })

  it('[R8] gives one person so many places and no more, and others theirs', async () => {
    const pages = await Promise.all(Array.from({ length: limits.socketsPerPerson }, () => join('p-many', 'observer')))
    const oneMore = new LightClient(
      `${server.url}/sync/${documentName('record', caseId)}?own=1&as=p-many&role=observer`,
    )
    expect(await oneMore.closed()).toMatchObject({ code: closeCode.tooFast })
    await join('p-other', 'observer')
    const left = pages[0]?.closed()
    pages[0]?.close()
    await left
    await vi.waitFor(() => join('p-many', 'observer'))
  })

  it('[R2] a socket whose person has another role by now is closed, and the others stay', async () => {
    const [demoted, other] = await Promise.all([join('p-demoted', 'team'), join('p-stays', 'team')])
    server.giveRole('p-demoted', 'observer')
    const closed = demoted.closed()
    await server.endpoint.hub.checkAccess()
    expect(await closed).toMatchObject({ code: closeCode.roleChanged })
    expect(await other.attempt((copy) => putRecord(copy, 'plan', freshRecord('plan', 'p-stays')))).toBe('stored')
  })

  it('[R2] a person without a role is told so', async () => {
    const stranger = new LightClient(`${server.url}/sync/${documentName('record', caseId)}?own=1&as=p-x&role=none`)
    expect(await stranger.closed()).toMatchObject({ code: closeCode.notAllowed })
  })
})
