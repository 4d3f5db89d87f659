import * as Y from 'yjs'
import { raiseQuestion, reply, toggleBacking } from '../../lib/board/edits/floor.ts'
import { annotate, enterTest, setPoint } from '../../lib/board/edits/hearing.ts'
import { type Pen, recordMap } from '../../lib/board/edits/writing.ts'
import { readRecord, readTable } from '../../lib/board/reading.ts'
import { type DocumentKind, kindsIn } from '../../lib/board/records.ts'
import { plainText } from '../../lib/board/rich-text.ts'
import type { Role } from '../../lib/board/roles.ts'
import { audiometricFrequenciesHz } from '../../lib/units/frequencies.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import type { Visitor } from './start-server.ts'
import { StubbornClient } from './stubborn-client.ts'

/** Everybody has a test of their own ear and condition: what is tried is loss, not two current tests. */
export const slots = [
  ['right', 'unaided', 'air'],
  ['left', 'unaided', 'air'],
  ['right', 'aided', 'aided'],
] as const
type Slot = (typeof slots)[number]

/** What is made between two kills: within what the panel may write at once (R9), also when all of the last round comes again. */
const most = { asks: 5, replies: 7, backings: 30 }

interface EditorParts {
  readonly visitor: Visitor
  readonly role: Role
  readonly slot: Slot
  readonly random: () => number
}

/** Somebody who writes random legal edits into both documents of a case, and holds on to them until they are stored. */
export class RandomEditor {
  readonly copies = { record: new StubbornClient(), floor: new StubbornClient() }
  readonly visitor: Visitor
  private readonly role: Role
  private readonly slot: Slot
  private readonly random: () => number
  private made = 0
  private test = ''
  private round = { asks: 0, replies: 0, backings: 0 }

  constructor({ visitor, role, slot, random }: EditorParts) {
    this.visitor = visitor
    this.role = role
    this.slot = slot
    this.random = random
  }

  get id(): string {
    return this.visitor.participant.id
  }

  /** @param addressOf where a document is synchronised */
  async connect(addressOf: (kind: DocumentKind) => string, origin: string): Promise<void> {
    this.round = { asks: 0, replies: 0, backings: 0 }
    const headers = { cookie: this.visitor.cookie, origin }
    await Promise.all((['record', 'floor'] as const).map((kind) => this.copies[kind].connect(addressOf(kind), headers)))
  }

  /** One random legal edit of this person. */
  edit(): void {
    if (this.role !== 'panel' && this.random() < 0.6) this.editRecord()
    else this.editFloor()
  }

  /** What this person has seen of others, as far as it cannot have been taken back since. */
  seenOfOthers(kind: DocumentKind): string[] {
    return contents(this.copies[kind].doc, kind).filter(
      (line) => !line.includes(this.id) && !line.startsWith('backings/'),
    )
  }

  private get pen(): Pen {
    return { participant: this.id, now: () => new Date(), newId: () => this.name() }
  }

  private pick<T>(items: readonly T[]): T {
    return items[Math.floor(this.random() * items.length)] as T
  }

  private name(): string {
    return `${this.id}-${++this.made}`
  }

  private mayStill(kind: keyof typeof most): boolean {
    if (this.round[kind] >= most[kind]) return false
    this.round[kind] += 1
    return true
  }

  private editRecord(): void {
    const { record } = this.copies
    const name = this.name()
    const kind = this.pick(['point', 'annotation', 'word'] as const)
    const place = { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) } as const
    if (kind === 'point') record.edit(name, (doc) => this.setPoint(doc))
    else if (kind === 'annotation') record.edit(name, (doc) => annotate(doc, this.pen, { place, text: name }))
    else record.edit(name, (doc) => this.typeWord(doc, name))
  }

  private setPoint(doc: Y.Doc): void {
    const [ear, condition, route] = this.slot
    const test = { ear, condition, performedOn: '2026-05-02', origin: 'typed', note: '', points: {} } as const
    if (readRecord(doc, 'tests', this.test) === undefined) this.test = enterTest(doc, this.pen, test, '')
    const level = asDbHl(5 * Math.floor(this.random() * 20))
    setPoint(doc, this.test, `${route}.unmasked.${this.pick(audiometricFrequenciesHz)}`, { kind: 'heard', level })
  }

  private typeWord(doc: Y.Doc, word: string): void {
    const note = readTable(doc, 'notes')[0]
    if (note === undefined) return
    const body = recordMap(doc, 'notes', note.id).get('body') as Y.XmlFragment
    const paragraph = new Y.XmlElement('paragraph')
    paragraph.insert(0, [new Y.XmlText(word)])
    body.insert(Math.floor(this.random() * (body.length + 1)), [paragraph])
  }

  private editFloor(): void {
    const { floor } = this.copies
    const questions = readTable(floor.doc, 'questions')
    const others = questions.filter(({ author }) => author !== this.id)
    const name = this.name()
    if ((others.length === 0 || this.random() < 0.3) && this.mayStill('asks'))
      floor.edit(name, (doc) => raiseQuestion(doc, this.pen, { text: name }))
    else if (questions.length > 0 && this.random() < 0.5 && this.mayStill('replies'))
      floor.edit(name, (doc) => reply(doc, this.pen, this.pick(questions).id, name))
    else if (others.length > 0 && this.mayStill('backings'))
      floor.edit(name, (doc) => toggleBacking(doc, this.pen, this.pick(others).id))
  }
}

/** Every record and every word of a document, one line each. */
export function contents(doc: Y.Doc, kind: DocumentKind): string[] {
  return kindsIn(kind).flatMap((name) =>
    readTable(doc, name).flatMap((record) => {
      const line = `${name}/${record.id}`
      if (!('body' in record)) return [line]
      const words = plainText(record.body).split('\n')
      return [line, ...words.map((word) => `${line}/${word}`)]
    }),
  )
}
