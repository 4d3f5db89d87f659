import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import * as Y from 'yjs'
import { annotate, enterTest } from '../../lib/board/edits/hearing.ts'
import { openVote } from '../../lib/board/edits/votes.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import { readRecord, readTable } from '../../lib/board/reading.ts'
import { closeCode } from '../../lib/board/wire.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { BoardNodes } from '../support/board-nodes.ts'
import { LightClient } from '../support/light-client.ts'
import type { Visitor } from '../support/start-server.ts'
import { StubbornClient } from '../support/stubborn-client.ts'

/** [R1] over three processes and one database: what is checked, stored and shown at one of them is so at all of them. */
let board: BoardNodes
let team: Visitor[]
let moderator: Visitor
const all = [0, 1, 2]

beforeAll(async () => {
  board = await BoardNodes.start(3)
  moderator = await board.node(0).join('moderator', 'Mod')
  team = await Promise.all(all.map((index) => board.node(0).join('team', `Team ${index}`)))
}, 600_000)
afterAll(() => board.stop())

let made = 0
const penOf = ({ participant }: Visitor): Pen => ({
  participant: participant.id,
  now: () => new Date(),
  newId: () => `r-${++made}`,
})
const pin = (doc: Y.Doc, who: Visitor, text: string) =>
  annotate(doc, penOf(who), { place: { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) }, text })
const pinsIn = (doc: Y.Doc): string[] =>
  readTable(doc, 'annotations')
    .map(({ text }) => text)
    .sort()
const sameState = (a: Y.Doc, b: Y.Doc) => Y.equalSnapshots(Y.snapshot(a), Y.snapshot(b))
const newRecord = async (label: string) => `record.${await board.node(0).createCase(label)}`

async function lightAt(index: number, document: string, who: Visitor): Promise<LightClient> {
  const [address, headers] = board.socketAt(index, document, who)
  return LightClient.join(address, { headers })
}

async function stubbornAt(index: number, document: string, who: Visitor): Promise<StubbornClient> {
  const client = new StubbornClient()
  await client.connect(...board.socketAt(index, document, who))
  return client
}

/** What the log holds, read past every process. */
async function logged(document: string): Promise<Y.Doc> {
  const rows = await board.postgres.ask(
    board.database,
    `SELECT bytes FROM updates WHERE document = '${document}' ORDER BY seq`,
  )
  const doc = new Y.Doc()
  for (const { bytes } of rows) Y.applyUpdate(doc, bytes as Uint8Array)
  return doc
}

async function comeTogether(document: string, clients: readonly { readonly doc: Y.Doc }[]): Promise<void> {
  const truth = await logged(document)
  for (const { doc } of clients) await vi.waitFor(() => expect(sameState(doc, truth)).toBe(true), { timeout: 20_000 })
}

/** Everybody writes at once, each at their own process. @returns the names of all edits */
async function writeEverywhere(clients: readonly StubbornClient[], rounds: number, round: string): Promise<string[]> {
  const names: string[] = []
  for (let step = 0; step < rounds; step++) {
    for (const [index, client] of clients.entries()) {
      const name = `${round}-${index}-${step}`
      names.push(name)
      client.edit(name, (doc) => pin(doc, team[index] as Visitor, name))
    }
    await new Promise((resolve) => setImmediate(resolve))
  }
  return names
}

describe('people at three processes', () => {
  it('all see everything that any of them wrote, and each process gets its edits in', async () => {
    const document = await newRecord('Together')
    const clients = await Promise.all(all.map((index) => stubbornAt(index, document, team[index] as Visitor)))
    const names = await writeEverywhere(clients, 40, 'together')
    await Promise.all(clients.map((client) => client.settled()))
    expect(clients.flatMap(({ refused }) => refused)).toEqual([])
    await comeTogether(document, clients)
    expect(pinsIn((clients[0] as StubbornClient).doc)).toEqual(names.sort())
    for (const client of clients) client.close()
  })

  it('[G8] [S9] cannot both make a current test of one ear, whichever process they ask', async () => {
    for (let round = 0; round < 8; round++) {
      const document = await newRecord(`Conflict ${round}`)
      const clients = await Promise.all(all.map((index) => lightAt(index, document, team[index] as Visitor)))
      const answers = await Promise.all(
        clients.map((client, index) =>
          client.attempt((copy) =>
            enterTest(
              copy,
              penOf(team[index] as Visitor),
              { ear: 'left', condition: 'unaided', performedOn: '2026-05-02', origin: 'typed', note: '', points: {} },
              '',
            ),
          ),
        ),
      )
      expect([round, answers.filter((answer) => answer === 'stored').length]).toEqual([round, 1])
      expect(readTable(await logged(document), 'tests')).toHaveLength(1)
      for (const client of clients) client.close()
    }
  })

  it('are all in everybody’s list, each once, and leave it when they go', async () => {
    const document = await newRecord('Roster')
    const observers = await Promise.all([1, 2].map((n) => board.node(0).join('observer', `Observer ${n}`)))
    const clients = await Promise.all([
      ...all.map((index) => lightAt(index, document, team[index] as Visitor)),
      lightAt(1, document, team[0] as Visitor),
      lightAt(0, document, observers[0] as Visitor),
      lightAt(2, document, observers[0] as Visitor),
      lightAt(2, document, observers[1] as Visitor),
    ])
    const first = clients[0] as LightClient
    const [twice, leaving] = [clients[3], clients[6]]
    const seen = () => [first.roster?.people.map(({ name }) => name).sort(), first.roster?.observers]
    await first.until(() => JSON.stringify(seen()) === JSON.stringify([['Team 0', 'Team 1', 'Team 2'], 2]))
    twice?.close()
    leaving?.close()
    await first.until(() => JSON.stringify(seen()) === JSON.stringify([['Team 0', 'Team 1', 'Team 2'], 1]))
    for (const client of clients) client.close()
  })

  it('lose their access everywhere as soon as it is taken at one', async () => {
    const document = await newRecord('Revoked')
    const link = await board.node(0).invite({
      role: 'panel',
      label: 'Guest',
      scope: { kind: 'programme', id: await board.node(0).programme() },
    })
    const guest = await board.node(1).joinBy(link, 'Guest')
    const client = await lightAt(2, document, guest)
    const closed = client.closed()
    const owner = await board.node(0).owner()
    const { body } = await board.node(1).get('/api/invitations', owner.cookie)
    const id = (body as { invitations: { id: string; label: string }[] }).invitations.find(
      ({ label }) => label === 'Guest',
    )?.id
    const startedMs = performance.now()
    const headers = { cookie: owner.cookie, origin: board.node(1).url, 'content-type': 'application/json' }
    await fetch(`${board.node(1).url}/api/invitations/${id}/revoke`, { method: 'POST', headers, body: '{}' })
    expect((await closed).code).toBe(closeCode.revoked)
    console.log(`revoked on another process after ${Math.round(performance.now() - startedMs)} ms`)
  })

  it('[S6] are sent out everywhere when a case is erased at one, and nothing of it comes back', async () => {
    const document = await newRecord('Erased')
    const caseId = document.slice('record.'.length)
    const clients = await Promise.all(all.map((index) => lightAt(index, document, team[index] as Visitor)))
    for (const [index, client] of clients.entries())
      expect(await client.attempt((copy) => pin(copy, team[index] as Visitor, `erased ${index}`))).toBe('stored')
    const closed = clients.map((client) => client.closed())
    const owner = await board.node(0).owner()
    expect((await board.node(1).post(`/api/cases/${caseId}/erase`, { label: 'Erased' }, owner.cookie)).status).toBe(200)
    for (const each of closed) expect((await each).code).toBe(closeCode.revoked)
    for (const table of ['updates', 'snapshots', 'documents', 'client_owners', 'marks'])
      expect([
        table,
        await board.postgres.ask(board.database, `SELECT FROM ${table} WHERE document = '${document}'`),
      ]).toEqual([table, []])
  })

  it('[G12] vote at any process; closed at two at once, there is one count of every ballot', async () => {
    const document = await newRecord('Vote')
    const caseId = document.slice('record.'.length)
    const desk = await lightAt(0, document, moderator)
    let vote = ''
    await desk.attempt((copy) => {
      vote = openVote(copy, penOf(moderator), {
        question: 'Which site?',
        options: ['round window', 'stapes head'],
        asksConfidence: false,
      })
    })
    const path = `/api/cases/${caseId}/votes/${vote}`
    const ballots = await Promise.all(
      all.map((index) =>
        board.node(index).post(`${path}/ballot`, { option: index % 2 }, (team[index] as Visitor).cookie),
      ),
    )
    expect(ballots.map(({ status }) => status)).toEqual([200, 200, 200])
    const closing = await Promise.all(all.map((index) => board.node(index).post(`${path}/close`, {}, moderator.cookie)))
    expect(closing.map(({ status }) => status)).toEqual([200, 200, 200])
    const result = readRecord(await logged(document), 'votes', vote)?.result
    expect(result).toMatchObject({ options: [{ votes: 2 }, { votes: 1 }], notVoted: 0 })
    desk.close()
  })
})

/** Written past the processes: nobody says a word of it. @returns what was written */
async function logUnannounced(document: string, text: string): Promise<Uint8Array> {
  const copy = new Y.Doc()
  pin(copy, team[0] as Visitor, text)
  const update = Y.encodeStateAsUpdate(copy)
  const entry = {
    document,
    author: team[0]?.participant.id,
    role: 'team',
    at: new Date().toISOString(),
    clients: [copy.clientID],
    marks: [],
  }
  await board.postgres.ask(
    board.database,
    `SELECT append_updates('${JSON.stringify([{ entries: [entry] }])}', ARRAY['\\x${Buffer.from(update).toString('hex')}'::bytea])`,
  )
  return update
}

describe('a process that was not told', () => {
  it('finds in the log what it missed', async () => {
    const document = await newRecord('Missed')
    const [writer, reader] = await Promise.all([
      lightAt(0, document, team[0] as Visitor),
      lightAt(1, document, team[1] as Visitor),
    ])
    await logUnannounced(document, 'unannounced')
    await Promise.all([writer, reader].map((client) => client.until(() => pinsIn(client.doc).includes('unannounced'))))
    expect(await writer.attempt((doc) => pin(doc, team[0] as Visitor, 'after'))).toBe('stored')
    await reader.until(() => pinsIn(reader.doc).includes('after'))
    for (const client of [writer, reader]) client.close()
  })

  it('refuses nobody for standing on what others stored: it looks into the log first', async () => {
    const document = await newRecord('Ahead')
    const ahead = await stubbornAt(1, document, team[1] as Visitor)
    // As if it had come from a process that this person was at before.
    Y.applyUpdate(ahead.doc, await logUnannounced(document, 'of another'), ahead)
    ahead.close()
    await vi.waitFor(() => expect(ahead.isOpen).toBe(false))
    ahead.edit('own', (doc) => pin(doc, team[1] as Visitor, 'own'))
    await ahead.connect(...board.socketAt(1, document, team[1] as Visitor))
    // A frame that is confirmed confirms those before it: what comes after a doubted one waits for it.
    ahead.edit('next', (doc) => pin(doc, team[1] as Visitor, 'next'))
    await ahead.settled()
    expect([ahead.refused, [...ahead.stored].sort()]).toEqual([[], ['next', 'own']])
    await comeTogether(document, [ahead])
    expect(pinsIn(ahead.doc)).toEqual(['next', 'of another', 'own'])
    ahead.close()
  })

  it('still refuses what may not stand, when the log says nothing else, and keeps what was sent after it', async () => {
    const document = await newRecord('Foreign')
    const [owner, thief] = await Promise.all([
      lightAt(0, document, team[0] as Visitor),
      stubbornAt(1, document, team[1] as Visitor),
    ])
    const copy = new Y.Doc()
    pin(copy, team[0] as Visitor, 'never stored')
    thief.edit('stolen', (doc) => Y.applyUpdate(doc, Y.encodeStateAsUpdate(copy)))
    await thief.settled()
    expect(thief.refused).toHaveLength(1)
    expect(await owner.attempt((doc) => pin(doc, team[0] as Visitor, 'honest'))).toBe('stored')
    expect(pinsIn(await logged(document))).toEqual(['honest'])
    for (const client of [owner, thief]) client.close()
  })
})

describe('a process that is cut off from the database', () => {
  it('calls nothing stored, sends its people away, and takes them back when the link is there again', async () => {
    const document = await newRecord('Partition')
    const cutOff = await stubbornAt(1, document, team[1] as Visitor)
    const well = await stubbornAt(0, document, team[0] as Visitor)
    board.link(1).hold()
    cutOff.edit('during', (doc) => pin(doc, team[1] as Visitor, 'during'))
    well.edit('elsewhere', (doc) => pin(doc, team[0] as Visitor, 'elsewhere'))
    await well.settled()
    expect([...well.stored]).toEqual(['elsewhere'])
    await vi.waitFor(() => expect(cutOff.isOpen).toBe(false), { timeout: 30_000 })
    expect([...cutOff.stored]).toEqual([])
    expect(pinsIn(well.doc)).toEqual(['elsewhere'])
    // Whoever comes now hears why, in words that a page can read.
    const turnedAway = new LightClient(...withHeaders(board.socketAt(1, document, team[2] as Visitor)))
    expect((await turnedAway.closed()).code).toBe(closeCode.notStored)
    expect((await board.node(1).get('/healthz')).status).toBe(200)
    expect((await board.node(1).get('/readyz')).status).toBe(503)
    board.link(1).release()
    await vi.waitFor(async () => expect((await board.node(1).get('/readyz')).status).toBe(200), { timeout: 30_000 })
    await cutOff.connect(...board.socketAt(1, document, team[1] as Visitor))
    await cutOff.settled()
    expect([...cutOff.stored]).toEqual(['during'])
    await comeTogether(document, [cutOff, well])
    for (const client of [cutOff, well]) client.close()
  })
})

const withHeaders = ([address, headers]: [string, Record<string, string>]) => [address, { headers }] as const

describe('a database that goes down and comes back', () => {
  it('loses nothing that was stored or shown; every process takes its people back by itself', async () => {
    const document = await newRecord('Restart')
    const clients = await Promise.all(all.map((index) => stubbornAt(index, document, team[index] as Visitor)))
    const names = await writeEverywhere(clients, 10, 'before')
    await board.postgres.halt()
    const stored = clients.flatMap((client) => [...client.stored])
    const shown = clients.map(({ doc }, index) => pinsIn(doc).filter((name) => !name.startsWith(`before-${index}`)))
    await Promise.all(clients.map((client) => vi.waitFor(() => expect(client.isOpen).toBe(false), { timeout: 30_000 })))
    await board.postgres.start()
    const kept = pinsIn(await logged(document))
    for (const name of [...stored, ...shown.flat()]) expect(kept).toContain(name)
    await Promise.all(
      all.map((index) =>
        vi.waitFor(async () => expect((await board.node(index).get('/readyz')).status).toBe(200), { timeout: 30_000 }),
      ),
    )
    await Promise.all(
      clients.map((client, index) => client.connect(...board.socketAt(index, document, team[index] as Visitor))),
    )
    await Promise.all(clients.map((client) => client.settled()))
    await comeTogether(document, clients)
    expect(pinsIn((clients[0] as StubbornClient).doc)).toEqual(names.sort())
    for (const client of clients) client.close()
  })
})

describe('a process that is killed', () => {
  it('is not noticed by people at the others; its own go on elsewhere with all that was theirs', async () => {
    const document = await newRecord('Killed')
    const clients = await Promise.all(all.map((index) => stubbornAt(index, document, team[index] as Visitor)))
    const [first, , third] = clients as [StubbornClient, StubbornClient, StubbornClient]
    const names = await writeEverywhere(clients, 15, 'killed')
    await board.node(2).kill9()
    const seenOfThird = pinsIn(first.doc).filter((name) => name.startsWith('killed-2'))
    const stored = [...third.stored]
    names.push(...(await writeEverywhere([first], 5, 'later')))
    await Promise.all([first, clients[1] as StubbornClient].map((client) => client.settled()))
    expect([first.isOpen, clients[1]?.isOpen]).toEqual([true, true])
    const kept = pinsIn(await logged(document))
    for (const name of [...seenOfThird, ...stored]) expect(kept).toContain(name)
    await third.connect(...board.socketAt(0, document, team[2] as Visitor))
    await third.settled()
    await comeTogether(document, clients)
    expect(pinsIn(first.doc)).toEqual(names.sort())
    await board.node(2).start()
    for (const client of clients) client.close()
  })
})

describe('processes that are restarted one after the other', () => {
  it('lose no edit: each finishes what it took, and its people are told to come back', {
    timeout: 120_000,
  }, async () => {
    const document = await newRecord('Rolling')
    const clients = await Promise.all(all.map((index) => stubbornAt(index, document, team[index] as Visitor)))
    const names: string[] = []
    const place = [...all]
    for (const index of all) {
      names.push(...(await writeEverywhere(clients, 10, `rolling${index}`)))
      const ending = board.node(index).terminate()
      // As a balancer does it: whoever was there goes to one that is.
      const next = (index + 1) % all.length
      const moving = clients.map(async (client, each) => {
        if (place[each] !== index) return
        await vi.waitFor(() => expect(client.isOpen).toBe(false), { timeout: 30_000 })
        await client.connect(...board.socketAt(next, document, team[each] as Visitor))
        place[each] = next
      })
      await Promise.all(moving)
      names.push(...(await writeEverywhere(clients, 5, `meanwhile${index}`)))
      expect(await ending).toBe(0)
      await board.node(index).start()
    }
    await Promise.all(clients.map((client) => client.settled()))
    expect(clients.flatMap(({ refused }) => refused)).toEqual([])
    await comeTogether(document, clients)
    expect(pinsIn((clients[0] as StubbornClient).doc)).toEqual(names.sort())
    for (const client of clients) client.close()
  })
})
