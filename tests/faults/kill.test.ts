import { afterAll, beforeAll, expect, it } from 'vitest'
import * as Y from 'yjs'
import { startNote } from '../../lib/board/edits/decisions.ts'
import { raiseQuestion, reply, toggleBacking } from '../../lib/board/edits/floor.ts'
import { annotate, enterTest, setPoint } from '../../lib/board/edits/hearing.ts'
import { type Pen, recordMap } from '../../lib/board/edits/writing.ts'
import { readRecord, readTable } from '../../lib/board/reading.ts'
import type { DocumentKind } from '../../lib/board/records.ts'
import { kindsIn } from '../../lib/board/records.ts'
import { plainText } from '../../lib/board/rich-text.ts'
import type { Role } from '../../lib/board/roles.ts'
import { audiometricFrequenciesHz } from '../../lib/units/frequencies.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { randomFrom } from '../support/random.ts'
import { startServer, type TestServer, type Visitor } from '../support/start-server.ts'
import { StubbornClient } from '../support/stubborn-client.ts'

/**
 * [R1] Checked, then stored, then shown: after `kill -9` at a random moment, everything that anybody else had seen and
 * everything that was called stored is there, and all copies become equal again. KILL_ROUNDS for more rounds,
 * KILL_SEED to repeat a run.
 */
const rounds = Number(process.env.KILL_ROUNDS ?? 20)
const seed = Number(process.env.KILL_SEED ?? Date.now() % 1_000_000)

const random = randomFrom(seed)
const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)] as T

const roles: readonly Role[] = ['moderator', 'team', 'team', 'panel', 'panel']
const slots = [
  ['right', 'unaided', 'air'],
  ['left', 'unaided', 'air'],
  ['right', 'aided', 'aided'],
] as const
type Slot = (typeof slots)[number]

let server: TestServer
let caseId: string
let people: Editor[]

class Editor {
  readonly visitor: Visitor
  readonly role: Role
  readonly copies = { record: new StubbornClient(), floor: new StubbornClient() }
  private made = 0
  private test = ''
  private readonly slot: Slot

  constructor(visitor: Visitor, role: Role, slot: Slot) {
    this.slot = slot
    this.visitor = visitor
    this.role = role
  }

  get id(): string {
    return this.visitor.participant.id
  }

  private get pen(): Pen {
    return { participant: this.id, now: () => new Date(), newId: () => this.name() }
  }

  private name(): string {
    return `${this.id}-${++this.made}`
  }

  async connect(): Promise<void> {
    const headers = { cookie: this.visitor.cookie, origin: server.url }
    await Promise.all(
      (['record', 'floor'] as const).map((kind) =>
        this.copies[kind].connect(`${server.syncUrl}/${kind}.${caseId}?own=1`, headers),
      ),
    )
  }

  /** One random legal edit of this person. */
  edit(): void {
    if (this.role !== 'panel' && random() < 0.6) this.editRecord()
    else this.editFloor()
  }

  private editRecord(): void {
    const { record } = this.copies
    const name = this.name()
    const kind = pick(['point', 'annotation', 'word'] as const)
    if (kind === 'point') record.edit(name, (doc) => this.setPoint(doc))
    else if (kind === 'annotation')
      record.edit(name, (doc) =>
        annotate(doc, this.pen, {
          place: { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) },
          text: name,
        }),
      )
    else record.edit(name, (doc) => typeWord(doc, name))
  }

  /** Everybody has a test of their own ear and condition: what is tried here is loss, not two current tests. */
  private setPoint(doc: Y.Doc): void {
    const [ear, condition, route] = this.slot
    if (readRecord(doc, 'tests', this.test) === undefined)
      this.test = enterTest(
        doc,
        this.pen,
        { ear, condition, performedOn: '2026-05-02', origin: 'typed', note: '', points: {} },
        '',
      )
    const level = asDbHl(5 * Math.floor(random() * 20))
    setPoint(doc, this.test, `${route}.unmasked.${pick(audiometricFrequenciesHz)}`, { kind: 'heard', level })
  }

  private editFloor(): void {
    const { floor } = this.copies
    const questions = readTable(floor.doc, 'questions')
    const others = questions.filter(({ author }) => author !== this.id)
    const name = this.name()
    if (others.length === 0 || random() < 0.3) floor.edit(name, (doc) => raiseQuestion(doc, this.pen, { text: name }))
    else if (random() < 0.5) floor.edit(name, (doc) => reply(doc, this.pen, pick(questions).id, name))
    else floor.edit(name, (doc) => toggleBacking(doc, this.pen, pick(others).id))
  }
}

function typeWord(doc: Y.Doc, word: string): void {
  const note = readTable(doc, 'notes')[0]
  if (note === undefined) return
  const body = recordMap(doc, 'notes', note.id).get('body') as Y.XmlFragment
  const paragraph = new Y.XmlElement('paragraph')
  paragraph.insert(0, [new Y.XmlText(word)])
  body.insert(Math.floor(random() * (body.length + 1)), [paragraph])
}

/** Every record and every word of a document, one line each. */
function contents(doc: Y.Doc, kind: DocumentKind): string[] {
  return kindsIn(kind).flatMap((name) =>
    readTable(doc, name).flatMap((record) => {
      const line = `${name}/${record.id}`
      return 'body' in record
        ? [
            line,
            ...plainText(record.body)
              .split('\n')
              .map((word) => `${line}/${word}`),
          ]
        : [line]
    }),
  )
}

/** What this person has seen of others, as far as it cannot have been taken back since. */
const seenOfOthers = (editor: Editor, kind: DocumentKind) =>
  contents(editor.copies[kind].doc, kind).filter((line) => !line.includes(editor.id) && !line.startsWith('backings/'))

async function freshCopy(kind: DocumentKind): Promise<Y.Doc> {
  const witness = people[0] as Editor
  const client = new StubbornClient()
  await client.connect(`${server.syncUrl}/${kind}.${caseId}?own=1`, {
    cookie: witness.visitor.cookie,
    origin: server.url,
  })
  client.close()
  return client.doc
}

beforeAll(async () => {
  server = await startServer()
  caseId = await server.createCase('Kill')
  people = await Promise.all(
    roles.map(
      async (role, index) =>
        new Editor(await server.join(role, `Person ${index}`), role, slots[index % slots.length] ?? slots[0]),
    ),
  )
  await Promise.all(people.map((person) => person.connect()))
  const moderator = people[0] as Editor
  moderator.copies.record.edit('note', (doc) =>
    startNote(doc, { participant: moderator.id, now: () => new Date(), newId: () => 'shared-note' }, 'finding'),
  )
  await Promise.all(
    people.map(({ copies }) => copies.record.until(() => readTable(copies.record.doc, 'notes').length === 1)),
  )
}, 600_000)
afterAll(() => server.stop())

it(`keeps what was seen and stored over ${rounds} kills (seed ${seed})`, {
  timeout: 60_000 + rounds * 20_000,
}, async () => {
  for (let round = 0; round < rounds; round++) {
    const stopEditing = startEditing()
    await new Promise((resolve) => setTimeout(resolve, 80 + random() * 300))
    await server.kill9()
    const seen = people.map((person) => ({
      record: seenOfOthers(person, 'record'),
      floor: seenOfOthers(person, 'floor'),
    }))
    stopEditing()
    await server.start()
    for (const kind of ['record', 'floor'] as const) {
      const kept = new Set(contents(await freshCopy(kind), kind))
      for (const [index, of] of seen.entries())
        expect([round, index, kind, of[kind].filter((line) => !kept.has(line))]).toEqual([round, index, kind, []])
    }
    await Promise.all(people.map((person) => person.connect()))
    await converge()
  }
})

function startEditing(): () => void {
  const timers = people.map((person) => setInterval(() => person.edit(), 8 + random() * 20))
  return () => timers.forEach(clearInterval)
}

/** Everybody's edits are stored, and every copy equals what the server gives to somebody new. */
async function converge(): Promise<void> {
  for (const kind of ['record', 'floor'] as const) {
    await Promise.all(people.map(({ copies }) => copies[kind].settled()))
    for (const { copies } of people) expect(copies[kind].refused).toEqual([])
    const truth = await freshCopy(kind)
    const wanted = JSON.stringify(contents(truth, kind).sort())
    await Promise.all(
      people.map(({ copies }) =>
        copies[kind].until(() => JSON.stringify(contents(copies[kind].doc, kind).sort()) === wanted),
      ),
    )
    for (const { copies } of people) expect(equalState(copies[kind].doc, truth)).toBe(true)
  }
}

const equalState = (a: Y.Doc, b: Y.Doc) => Y.equalSnapshots(Y.snapshot(a), Y.snapshot(b))
