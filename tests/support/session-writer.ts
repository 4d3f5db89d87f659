import * as Y from 'yjs'
import { addStep, moveStep, startNote } from '../../lib/board/edits/decisions.ts'
import { callQuestion, raiseQuestion, reply, toggleBacking } from '../../lib/board/edits/floor.ts'
import { annotate } from '../../lib/board/edits/hearing.ts'
import { type Pen, recordMap } from '../../lib/board/edits/writing.ts'
import { readTable } from '../../lib/board/reading.ts'
import { type DocumentKind, kindNames, kindOf } from '../../lib/board/records.ts'
import { asDbHl } from '../../lib/units/levels.ts'

export const sessionStart = Date.parse('2026-03-02T08:00:00.000Z')

interface Written {
  readonly kind: DocumentKind
  readonly update: Uint8Array
  readonly at: string
  readonly author: string
  readonly role: 'team'
  readonly clients: readonly number[]
}

/** Invents a session: mostly typing in notes, as in life, with steps, pins, questions, replies and backings between. */
export class SessionWriter {
  private readonly random: () => number
  private readonly everyMs: number
  private readonly docs: Readonly<Record<DocumentKind, Y.Doc>> = { record: new Y.Doc(), floor: new Y.Doc() }
  private readonly seqs: Record<DocumentKind, number> = { record: 0, floor: 0 }
  private nowMs = sessionStart
  private made = 0
  private note = ''

  /** @param everyMs time between two updates */
  constructor(random: () => number, everyMs: number) {
    this.random = random
    this.everyMs = everyMs
  }

  /** The next so many updates of both documents together. */
  write(count: number): Written[] {
    const written: Written[] = []
    const listeners = (['record', 'floor'] as const).map((kind) => {
      const listener = (update: Uint8Array) => {
        this.seqs[kind]++
        const at = new Date(this.nowMs).toISOString()
        written.push({ kind, update, at, author: 'anna', role: 'team', clients: [] })
      }
      this.docs[kind].on('update', listener)
      return () => this.docs[kind].off('update', listener)
    })
    while (written.length < count) {
      this.nowMs += this.everyMs
      this.edit()
    }
    for (const stop of listeners) stop()
    return written
  }

  snapshots(): { kind: DocumentKind; seq: number; state: Uint8Array }[] {
    return (['record', 'floor'] as const).map((kind) => ({
      kind,
      seq: this.seqs[kind],
      state: Y.encodeStateAsUpdate(this.docs[kind]),
    }))
  }

  stateBytes(): number[] {
    return this.snapshots().map(({ state }) => state.length)
  }

  /** Every record of a document, parsed. */
  static everyRecord(doc: Y.Doc, index: number): unknown[] {
    const kind = index === 0 ? 'record' : 'floor'
    return kindNames.filter((name) => kindOf(name).document === kind).flatMap((name) => readTable(doc, name))
  }

  private get pen(): Pen {
    return { participant: `p${this.made % 9}`, now: () => new Date(this.nowMs), newId: () => `r${++this.made}` }
  }

  private edit(): void {
    const { record, floor } = this.docs
    const chance = this.random()
    if (this.note === '' || chance < 0.004) this.note = startNote(record, this.pen, 'finding')
    else if (chance < 0.93) this.type()
    else if (chance < 0.932) addStep(record, this.pen, { title: `Step ${this.made}`, check: '', hazard: '' })
    else if (chance < 0.936) {
      const step = this.pick(readSome(record, 'steps'))
      if (step !== undefined) moveStep(record, this.pen, step, step.state === 'under-way' ? 'done' : 'under-way')
    } else if (chance < 0.94)
      annotate(record, this.pen, {
        place: { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) },
        text: `Pin ${this.made}`,
      })
    else this.discuss(floor, chance)
  }

  private discuss(floor: Y.Doc, chance: number): void {
    const id = this.pick([...floor.getMap('questions').keys()])
    if (id === undefined || chance < 0.945) raiseQuestion(floor, this.pen, { text: `How about number ${this.made}?` })
    else if (chance < 0.96) reply(floor, this.pen, id, 'As we have seen it in the one before.')
    else if (chance < 0.99) toggleBacking(floor, { ...this.pen, participant: `b${Math.floor(this.random() * 40)}` }, id)
    else callQuestion(floor, this.pen, id)
  }

  private type(): void {
    const body = recordMap(this.docs.record, 'notes', this.note).get('body') as Y.XmlFragment
    const paragraph = body.get(0)
    if (!(paragraph instanceof Y.XmlElement)) {
      body.insert(0, [new Y.XmlElement('paragraph')])
      return
    }
    const text = paragraph.get(0)
    if (!(text instanceof Y.XmlText)) paragraph.insert(0, [new Y.XmlText('a')])
    else if (text.length > 1 && this.random() < 0.1) text.delete(text.length - 1, 1)
    else text.insert(text.length, this.random() < 0.2 ? ' ' : 'e')
  }

  private pick<T>(items: readonly T[]): T | undefined {
    return items[Math.floor(this.random() * items.length)]
  }
}

const readSome = (doc: Y.Doc, kind: 'steps') => readTable(doc, kind).slice(-20)
