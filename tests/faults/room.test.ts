import type { Worker } from 'node:worker_threads'
import * as encoding from 'lib0/encoding'
import { afterEach, describe, expect, it, vi } from 'vitest'
import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { startNote } from '../../lib/board/edits/decisions.ts'
import { annotate, removeAnnotation } from '../../lib/board/edits/hearing.ts'
import { type Pen, recordMap } from '../../lib/board/edits/writing.ts'
import { readTable } from '../../lib/board/reading.ts'
import type { Role } from '../../lib/board/roles.ts'
import { closeCode, maxPresenceBytes } from '../../lib/board/wire.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { presenceFrame } from '../../server/room/frames.ts'
import { limits } from '../../server/room/limits.ts'
import { startSourceThread } from '../../server/store/source-thread.ts'
import { type Store, StoreOutage } from '../../server/store/store.ts'
import { LightClient } from '../support/light-client.ts'
import { StubbornClient } from '../support/stubborn-client.ts'
import { type SyncServer, startSyncServer } from '../support/sync-server.ts'

/** What one room promises while its store, its network or its people misbehave. */
let server: SyncServer
const caseId = 'heron'
const record = documentName('record', caseId)
const clients: LightClient[] = []

async function open(around?: (store: Store) => Store, startThread?: (file: string) => Worker): Promise<void> {
  server = await startSyncServer(around, startThread)
  const createdAt = new Date().toISOString()
  await server.store.createProgramme({ id: 'programme', label: 'Programme', createdAt })
  await server.store.createCase({ id: caseId, programme: 'programme', label: caseId, rank: 'a0', createdAt })
}

afterEach(async () => {
  vi.useRealTimers()
  for (const client of clients.splice(0)) client.close()
  await server.stop()
})

const addressOf = (as: string, role: Role) => `${server.url}/sync/${record}?own=1&as=${as}&role=${role}`

async function join(as: string, role: Role, options = {}): Promise<LightClient> {
  const client = await LightClient.join(addressOf(as, role), options)
  clients.push(client)
  return client
}

let made = 0
const penOf = (participant: string): Pen => ({ participant, now: () => new Date(), newId: () => `r${++made}` })
const pin = (doc: Y.Doc, participant: string, text: string) =>
  annotate(doc, penOf(participant), { place: { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) }, text })
const pinsIn = (doc: Y.Doc): string[] => readTable(doc, 'annotations').map(({ text }) => text)
const sameState = (a: Y.Doc, b: Y.Doc) => Y.equalSnapshots(Y.snapshot(a), Y.snapshot(b))

/** A promise and the call that keeps it. */
function signal(): { readonly given: Promise<void>; readonly give: () => void } {
  let give = (): void => undefined
  const given = new Promise<void>((resolve) => {
    give = resolve
  })
  return { given, give: () => give() }
}

/** A copy made of nothing but what the store keeps. */
function replay(updates: readonly Uint8Array[]): Y.Doc {
  const doc = new Y.Doc()
  for (const update of updates) Y.applyUpdate(doc, update)
  return doc
}

describe('[R1] checked, then stored, then shown', () => {
  it('shows an edit to nobody, and calls it stored to nobody, before the store has it', async () => {
    const appending = signal()
    const release = signal()
    await open((store) => ({
      ...store,
      append: async (entries) => {
        appending.give()
        await release.given
        return store.append(entries)
      },
    }))
    const [writer, reader] = await Promise.all([join('p-team', 'team'), join('p-mod', 'moderator')])
    let answer: unknown
    const attempt = writer
      .attempt((copy) => pin(copy, 'p-team', 'notch'))
      .then((stored) => {
        answer = stored
      })
    await appending.given
    await Promise.all([reader.ask(), writer.ask()])
    const late = await join('p-late', 'observer')
    expect([pinsIn(reader.doc), pinsIn(late.doc), pinsIn(writer.doc), answer]).toEqual([[], [], [], undefined])
    release.give()
    await attempt
    expect(answer).toBe('stored')
    for (const { doc } of [reader, late]) await vi.waitFor(() => expect(pinsIn(doc)).toEqual(['notch']))
  })

  it('sends everybody away when the store fails; the edit comes again and is stored then', async () => {
    let failing = true
    await open((store) => ({
      ...store,
      append: (entries) =>
        failing ? Promise.reject(new StoreOutage('no space left on device')) : store.append(entries),
    }))
    const stubborn = new StubbornClient()
    await stubborn.connect(addressOf('p-team', 'team'), {})
    const reader = await join('p-mod', 'moderator')
    const closed = reader.closed()
    stubborn.edit('notch', (doc) => void pin(doc, 'p-team', 'notch'))
    expect(await closed).toMatchObject({ code: closeCode.notStored })
    expect(pinsIn(reader.doc)).toEqual([])
    await vi.waitFor(() => expect(stubborn.isOpen).toBe(false))
    expect(stubborn.stored).toEqual(new Set())

    failing = false
    await vi.waitFor(() => expect(server.endpoint.hub.canStore).toBe(true), { timeout: 10_000 })
    await stubborn.connect(addressOf('p-team', 'team'), {})
    await stubborn.settled()
    expect(stubborn.stored).toEqual(new Set(['notch']))
    expect(pinsIn((await join('p-mod', 'moderator')).doc)).toEqual(['notch'])
    stubborn.close()
  })
})

describe('[R1] a disk that is slow', () => {
  const writeMs = 1_200
  const slowly = (file: string) =>
    startSourceThread(new URL('../support/slow-disk-thread.ts', import.meta.url), { file, writeMs })

  it('shows nothing early, keeps what comes meanwhile for one write, lets people in, and is told of', async () => {
    await open(undefined, slowly)
    const names = ['p-anna', 'p-bo', 'p-cleo']
    const writers = await Promise.all(names.map((name) => join(name, 'team')))
    const begunMs = performance.now()
    const outcomes = writers.flatMap((writer, at) =>
      Array.from({ length: 15 }, (_, n) => writer.attempt((doc) => pin(doc, names[at] ?? '', `pin ${at} ${n}`))),
    )
    // Somebody who comes in while the disk is at work sees what is stored, and no more than that.
    const late = await join('p-late', 'observer')
    const shown = pinsIn(late.doc).length
    expect(shown).toBeLessThanOrEqual((await server.store.log(record, 0, 100)).length)
    expect(new Set(await Promise.all(outcomes))).toEqual(new Set(['stored']))
    await late.until(() => pinsIn(late.doc).length === 45)
    expect(performance.now() - begunMs).toBeLessThan(10 * writeMs)
    expect(server.logged.filter((event) => event === 'store-slow')).toHaveLength(1)
  })
})

describe('[R3] presence says of its sender only what is true', () => {
  const stateOf = (id: string, role: string, more: object = {}) =>
    JSON.stringify({ user: { id, name: id, role, color: '#446688', ...more } })

  function publish(client: LightClient, crdtClient: number, state: string, clock = 1): void {
    const encoder = encoding.createEncoder()
    encoding.writeVarUint(encoder, 1)
    encoding.writeVarUint(encoder, crdtClient)
    encoding.writeVarUint(encoder, clock)
    encoding.writeVarString(encoder, state)
    client.socket.send(presenceFrame(encoding.toUint8Array(encoder)))
  }

  it('passes on a true one and drops those that name somebody else, another role or name, or are too large', async () => {
    await open()
    const [team, panel, watcher] = await Promise.all([
      join('p-team', 'team'),
      join('p-panel', 'panel'),
      join('p-watch', 'panel'),
    ])
    publish(panel, 1, stateOf('p-team', 'team'))
    publish(panel, 2, stateOf('p-panel', 'moderator'))
    publish(panel, 3, stateOf('p-panel', 'panel', { name: 'p-team' }))
    publish(panel, 4, stateOf('p-panel', 'panel').replace('}}', `},"typing":"${'x'.repeat(maxPresenceBytes)}"}`))
    publish(panel, 5, '{"user":')
    publish(panel, 7, 'null')
    publish(panel, 6, stateOf('p-panel', 'panel'))
    await watcher.until(() => watcher.presences.has(6))
    expect([...watcher.presences.keys()]).toEqual([6])
    expect(JSON.parse(watcher.presences.get(6) ?? '')).toMatchObject({ user: { id: 'p-panel' } })
    expect(team.presences.get(6)).toBe(watcher.presences.get(6))
  })

  it('drops what comes under a client id that belongs to somebody else', async () => {
    await open()
    const [team, panel, watcher] = await Promise.all([
      join('p-team', 'team'),
      join('p-panel', 'panel'),
      join('p-watch', 'panel'),
    ])
    publish(team, 11, stateOf('p-team', 'team'))
    await watcher.until(() => watcher.presences.has(11))
    publish(panel, 11, stateOf('p-panel', 'panel'), 7)
    publish(panel, 11, 'null', 8)
    publish(panel, 12, stateOf('p-panel', 'panel'))
    await watcher.until(() => watcher.presences.has(12))
    expect(JSON.parse(watcher.presences.get(11) ?? '')).toMatchObject({ user: { id: 'p-team' } })
  })

  it('publishes nothing of an observer, whatever they send', async () => {
    await open()
    const [observer, panel, watcher] = await Promise.all([
      join('p-obs', 'observer'),
      join('p-panel', 'panel'),
      join('p-watch', 'panel'),
    ])
    publish(observer, 21, stateOf('p-obs', 'observer'))
    await observer.ask()
    publish(panel, 22, stateOf('p-panel', 'panel'))
    await watcher.until(() => watcher.presences.has(22))
    expect(watcher.presences.has(21)).toBe(false)
  })

  it('does not count what a page sends back of others against its own pace', async () => {
    await open()
    const [team, panel, watcher] = await Promise.all([
      join('p-team', 'team'),
      join('p-panel', 'panel'),
      join('p-watch', 'panel'),
    ])
    publish(team, 41, stateOf('p-team', 'team'))
    await panel.until(() => panel.presences.has(41))
    for (let n = 0; n < 3 * limits.presenceBurst; n++) publish(panel, 41, stateOf('p-team', 'team'))
    publish(panel, 42, stateOf('p-panel', 'panel'))
    await watcher.until(() => watcher.presences.has(42))
  })

  it('says of somebody who has gone that they have gone', async () => {
    await open()
    const [panel, watcher] = await Promise.all([join('p-panel', 'panel'), join('p-watch', 'panel')])
    publish(panel, 31, stateOf('p-panel', 'panel'))
    await watcher.until(() => watcher.presences.has(31))
    panel.close()
    await watcher.until(() => watcher.presences.get(31) === 'null')
  })
})

describe('[R6] a slow reader', () => {
  it('is caught up by one difference when it reads again, and has everything', { timeout: 120_000 }, async () => {
    await open()
    const [writer, slow] = await Promise.all([join('p-team', 'team'), join('p-slow', 'observer')])
    const notes = Array.from({ length: 60 }, (_, index) => `note-${index}`)
    await writer.attempt((copy) => {
      for (const id of notes) startNote(copy, { ...penOf('p-team'), newId: () => id }, 'finding')
    })
    await slow.until(() => readTable(slow.doc, 'notes').length === notes.length)
    const before = { ...slow.heard }
    slow.socket.pause()
    const rounds = 12
    for (let round = 0; round < rounds; round++)
      expect(await writer.attempt((copy) => rewriteAll(copy, notes, round))).toBe('stored')
    slow.socket.resume()
    await slow.until(() => sameState(slow.doc, writer.doc))
    expect(slow.heard.states - before.states).toBe(1)
    expect(slow.heard.updates - before.updates).toBeLessThan(rounds)
  })

  /** About 1.2 MB an edit: a few of them are more than sockets and kernel hold for a reader that stands still. */
  function rewriteAll(doc: Y.Doc, notes: readonly string[], round: number): void {
    for (const id of notes) rewrite(doc, id, round)
  }

  function rewrite(doc: Y.Doc, id: string, round: number): void {
    const body = recordMap(doc, 'notes', id).get('body') as Y.XmlFragment
    body.delete(0, body.length)
    const paragraph = new Y.XmlElement('paragraph')
    paragraph.insert(0, [new Y.XmlText(String(round % 10).repeat(19_000))])
    body.insert(0, [paragraph])
  }
})

describe('[R7] a connection that is only half there', () => {
  it('is ended after a missed heartbeat; one that answers stays', async () => {
    await open()
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] })
    const silent = await join('p-silent', 'panel', { autoPong: false })
    const lively = await join('p-lively', 'panel')
    const ended = silent.closed()
    const pinged = new Promise((resolve) => lively.socket.once('ping', resolve))
    vi.advanceTimersByTime(limits.heartbeatMs)
    await pinged
    await lively.ask()
    vi.advanceTimersByTime(limits.heartbeatMs)
    expect((await ended).code).toBe(1006)
    await lively.ask()
  })
})

describe('[R7] a quiet connection', () => {
  it('hears something before y-websocket takes it for lost', async () => {
    // y-websocket 3: a socket is closed when nothing was heard for 30 seconds (messageReconnectTimeout).
    expect(limits.heartbeatMs).toBeLessThan(30_000)
    await open()
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] })
    const quiet = await join('p-quiet', 'panel')
    const heard = new Promise((resolve) => quiet.socket.once('message', resolve))
    vi.advanceTimersByTime(limits.heartbeatMs)
    expect(await heard).toBeInstanceOf(Buffer)
  })
})

describe('[R8] refusals', () => {
  it('close the socket when they come faster than a page can make them', async () => {
    await open()
    const panel = await join('p-panel', 'panel')
    const closed = panel.closed()
    const answers: unknown[] = []
    for (let sent = 0; sent <= limits.refusalsPerMinute; sent++)
      void panel.attempt((copy) => void pin(copy, 'p-panel', 'not mine to set')).then((answer) => answers.push(answer))
    expect(await closed).toMatchObject({ code: closeCode.tooFast })
    expect(answers.length).toBeGreaterThanOrEqual(limits.refusalsPerMinute)
    expect(answers.every((answer) => answer !== 'stored')).toBe(true)
  })
})

describe('people of a room', () => {
  it('are listed once each by name, observers are a number', async () => {
    await open()
    const moderator = await join('p-mod', 'moderator')
    await Promise.all([
      join('p-panel', 'panel'),
      join('p-panel', 'panel'),
      join('p-obs-1', 'observer'),
      join('p-obs-2', 'observer'),
      join('p-obs-2', 'observer'),
    ])
    await moderator.until(() => moderator.roster?.observers === 2)
    expect(moderator.roster?.people.map(({ id, role }) => [id, role])).toEqual([
      ['p-mod', 'moderator'],
      ['p-panel', 'panel'],
    ])
    expect(JSON.stringify(moderator.roster)).not.toContain('p-obs')
  })

  it('are shut out within two seconds when their access ends, on every page of theirs', async () => {
    await open()
    const [one, two, other] = await Promise.all([
      join('p-gone', 'panel'),
      join('p-gone', 'panel'),
      join('p-stays', 'panel'),
    ])
    const closed = Promise.all([one.closed(), two.closed()])
    const startMs = performance.now()
    await server.endpoint.hub.expel('p-gone')
    for (const { code } of await closed) expect(code).toBe(closeCode.revoked)
    expect(performance.now() - startMs).toBeLessThan(2000)
    await other.ask()
  })
})

describe('a document that cannot be read', () => {
  it('keeps nobody else inside whose access ends meanwhile', async () => {
    const release = signal()
    const broken = documentName('record', 'broken')
    await open((store) => ({
      ...store,
      load: async (name) => {
        if (name !== broken) return store.load(name)
        await release.given
        throw new StoreOutage('This page of the disk cannot be read.')
      },
    }))
    const opening = expect(server.endpoint.hub.open(broken)).rejects.toThrow(StoreOutage)
    const gone = await join('p-gone', 'panel')
    const expelling = server.endpoint.hub.expel('p-gone')
    release.give()
    await expelling
    expect(await gone.closed()).toMatchObject({ code: closeCode.revoked })
    await opening
  })
})

describe('the way in', () => {
  it('is closed to somebody whose access ends while the room is being opened', async () => {
    await open((store) => ({
      ...store,
      load: async (name) => {
        server.giveRole('p-gone', undefined)
        await server.endpoint.hub.expel('p-gone')
        return store.load(name)
      },
    }))
    server.giveRole('p-gone', 'panel')
    const gone = new LightClient(`${server.url}/sync/${record}?own=1&as=p-gone&role=none`)
    clients.push(gone)
    expect(await gone.closed()).toMatchObject({ code: closeCode.notAllowed })
  })
})

/** Every third edit takes a pin away again, so that a board's limit is never met. */
function pinOrRemove(doc: Y.Doc, participant: string, edit: number): void {
  const [mine] = readTable(doc, 'annotations').filter(({ author }) => author === participant)
  if (mine === undefined || edit % 3 !== 2) pin(doc, participant, String(edit))
  else removeAnnotation(doc, mine.id)
}

describe('a room and its store', () => {
  it('agree after the room was closed for want of people and opened again', async () => {
    await open()
    const first = await join('p-team', 'team')
    for (const text of ['one', 'two', 'three']) await first.attempt((copy) => void pin(copy, 'p-team', text))
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
    first.socket.close()
    await vi.waitFor(() => expect(server.endpoint.connections).toBe(0))
    vi.advanceTimersByTime(limits.idleRoomMs)
    await vi.waitFor(async () => expect((await server.store.load(record)).snapshot?.seq).toBe(3))
    vi.useRealTimers()
    const again = await join('p-team', 'team')
    expect(sameState(again.doc, first.doc)).toBe(true)
    await again.attempt((copy) => void pin(copy, 'p-team', 'four'))
    expect(pinsIn((await join('p-late', 'observer')).doc).sort()).toEqual(['four', 'one', 'three', 'two'])
  })

  it('agree on snapshot and later updates, and on the whole log without a snapshot', { timeout: 120_000 }, async () => {
    await open()
    const names = ['p-a', 'p-b', 'p-c']
    const writers = names.map((name) => ({ name, client: new StubbornClient() }))
    await Promise.all(writers.map(({ name, client }) => client.connect(addressOf(name, 'team'), {})))
    const each = Math.ceil((limits.snapshotEvery + 20) / writers.length)
    for (let edit = 0; edit < each; edit++)
      for (const { name, client } of writers) client.edit(`${name} ${edit}`, (doc) => pinOrRemove(doc, name, edit))
    await Promise.all(writers.map(({ client }) => client.settled()))
    for (const { client } of writers) client.close()
    const reader = await join('p-obs', 'observer')
    expect(pinsIn(reader.doc).length).toBeGreaterThan(0)
    await vi.waitFor(async () => expect((await server.store.load(record)).snapshot).not.toBeNull())
    const { snapshot, updates } = await server.store.load(record)
    const opened = replay([snapshot?.state ?? new Uint8Array(), ...updates.map(({ update }) => update)])
    const log = await server.store.log(record, 0, 10_000)
    const replayed = replay(log.map(({ update }) => update))
    expect(sameState(opened, reader.doc)).toBe(true)
    expect(sameState(replayed, reader.doc)).toBe(true)
  })
})
