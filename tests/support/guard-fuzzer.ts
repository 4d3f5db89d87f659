import * as Y from 'yjs'
import { readRaw, tableOf } from '../../lib/board/layout.ts'
import { type DocumentKind, type KindName, kindOf, kindsIn } from '../../lib/board/records.ts'
import { Role } from '../../lib/board/roles.ts'
import { type ClientOwners, Proposal } from '../../server/guard/proposal.ts'
import { readFrame, updateFrame } from '../../server/room/frames.ts'
import { sampleId, sampleRecord } from './sample-records.ts'

type Random = () => number
type Raw = Readonly<Record<string, unknown>>

interface Sender {
  readonly participant: string
  readonly role: Role
}

export interface Tally {
  frames: number
  accepted: number
  readonly refused: Map<string, number>
}

/**
 * Sends one document valid Yjs updates that break its rules, and bytes that are none, and holds what the guard lets through
 * against the table of rights: written anew here from `recordKinds` alone, and not with the guard's own judgement.
 */
export class GuardFuzzer {
  readonly tally: Tally = { frames: 0, accepted: 0, refused: new Map() }
  private readonly kind: DocumentKind
  private readonly random: Random
  private readonly proposal: Proposal
  private readonly owners = new Map<number, string>()
  /** what was accepted so far */
  private mirror = new Y.Doc()
  private state: Uint8Array
  private nowMs = Date.parse('2026-05-04T10:00:00.000Z')
  private made = 0

  constructor(kind: DocumentKind, random: Random) {
    this.kind = kind
    this.random = random
    this.seed()
    this.state = Y.encodeStateAsUpdate(this.mirror)
    this.proposal = new Proposal(kind, [this.state])
  }

  /** One frame. @throws when something was accepted that the table of rights does not allow, or the guard threw */
  step(): void {
    this.tally.frames++
    this.nowMs += 250
    const sender = { participant: `p${this.upTo(5)}`, role: this.pick(Role.options) }
    const update = this.attack(sender)
    const frame = readFrame(this.chance(0.02) ? this.noise(updateFrame(update)) : updateFrame(update))
    if (frame.kind !== 'content') return this.count('no content')
    const verdict = this.proposal.check(frame.update, sender, this.owners as ClientOwners, this.nowMs)
    if (!verdict.ok) {
      if (verdict.spoilt) this.proposal.renew([this.state])
      return this.count(verdict.refused.code)
    }
    this.tally.accepted++
    if (!verdict.empty) this.accept(frame.update, sender, verdict.newClients)
    if (this.tally.frames % 500 === 0) this.startOver()
  }

  /** A document that others have written in: one record of each kind, by somebody else. */
  private seed(): void {
    const at = new Date(this.nowMs).toISOString()
    for (const kind of kindsIn(this.kind)) {
      const id = sampleId(kind, 'seed', 'of-others')
      tableOf(this.mirror, kind).set(id, sharedOf(kind, sampleRecord(kind, id, 'seed', at)))
    }
    this.owners.set(this.mirror.clientID, 'seed')
  }

  /** What piles up from hostile edits that were allowed must not make the rest slow. */
  private startOver(): void {
    this.mirror.destroy()
    this.mirror = new Y.Doc()
    this.owners.clear()
    this.seed()
    this.state = Y.encodeStateAsUpdate(this.mirror)
    this.proposal.renew([this.state])
  }

  private accept(update: Uint8Array, sender: Sender, newClients: readonly number[]): void {
    const before = this.records()
    for (const { id } of Y.decodeUpdate(update).structs) {
      const owner = this.owners.get(id.client)
      if (owner !== undefined && owner !== sender.participant && id.clock >= Y.getState(this.mirror.store, id.client))
        throw new Error(`content of ${owner} was accepted from ${sender.participant}`)
    }
    for (const client of newClients) this.owners.set(client, sender.participant)
    Y.applyUpdate(this.mirror, update)
    if (this.mirror.store.pendingStructs !== null) throw new Error('an update with missing dependencies was accepted')
    for (const root of this.mirror.share.keys())
      if (!kindsIn(this.kind).some((kind) => kind === root)) throw new Error(`the unknown root ${root} was accepted`)
    const after = this.records()
    for (const key of new Set([...before.keys(), ...after.keys()]))
      this.hold(key, before.get(key), after.get(key), sender)
    this.state = Y.encodeStateAsUpdate(this.mirror)
  }

  /** What the table of rights says of one record, before and after. */
  private hold(key: string, before: Raw | undefined, after: Raw | undefined, sender: Sender): void {
    if (JSON.stringify(before) === JSON.stringify(after)) return
    const [kind, id] = key.split('\n') as [KindName, string]
    const rights = kindOf(kind)
    const wrong = (what: string) => {
      throw new Error(`${what}: ${kind}/${id} by ${JSON.stringify(sender)}: ${JSON.stringify({ before, after })}`)
    }
    const isOneOf = (hands: readonly string[]) =>
      hands.includes(sender.role) || (hands.includes('author') && before?.author === sender.participant)
    if (after !== undefined && !rights.schema.safeParse(after).success) wrong('an invalid record was accepted')
    if (after !== undefined && after.id !== id) wrong('a record stands under another id')
    if (rights.sealed && before !== undefined) wrong('a sealed record was changed')
    if (before === undefined) {
      if (!rights.create.includes(sender.role)) wrong('made without the right')
      if (after?.author !== sender.participant) wrong('made in the name of somebody else')
      return
    }
    if (after === undefined) {
      if (!isOneOf(rights.remove)) wrong('removed without the right')
      return
    }
    const isFixed = Object.keys(rights.change).length === 0
    const replaced =
      isFixed && isOneOf(rights.remove) && rights.create.includes(sender.role) && after.author === sender.participant
    for (const field of new Set([...Object.keys(before), ...Object.keys(after)])) {
      if (JSON.stringify(before[field]) === JSON.stringify(after[field]) || replaced) continue
      if (rights.single && (field === 'author' || field === 'at')) continue
      if (!isOneOf(rights.change[field] ?? [])) wrong(`the field ${field} was changed without the right`)
    }
  }

  private records(): Map<string, Raw> {
    const found = new Map<string, Raw>()
    for (const kind of kindsIn(this.kind))
      for (const id of tableOf(this.mirror, kind).keys()) {
        const raw = readRaw(this.mirror, kind, id)
        if (raw !== undefined) found.set(`${kind}\n${id}`, raw)
      }
    return found
  }

  private attack(sender: Sender): Uint8Array {
    const doc = new Y.Doc()
    Y.applyUpdate(doc, this.state)
    if (this.chance(0.05)) doc.clientID = this.pick([...this.owners.keys()])
    const before = Y.encodeStateVector(doc)
    const deeds = this.chance(0.8) ? 1 : 1 + this.upTo(4)
    try {
      for (let n = 0; n < deeds; n++) this.deed(doc, sender)
    } catch {
      // Yjs would not write it: there are enough that it does.
    }
    const update = Y.encodeStateAsUpdate(doc, before)
    doc.destroy()
    return this.chance(0.1) ? this.mangled(update) : update
  }

  private deed(doc: Y.Doc, sender: Sender): void {
    const kind = this.pick(kindsIn(this.kind))
    const table = tableOf(doc, kind)
    const deeds = [
      () => this.put(doc, kind, sampleId(kind, sender.participant, `n${++this.made % 7}`), sender.participant),
      () => this.put(doc, kind, this.junkKey(), this.pick([sender.participant, 'seed', 'p1'])),
      () => this.change(doc, kind, this.anyKey(table)),
      () => this.change(doc, kind, this.anyKey(table)),
      () => table.delete(this.anyKey(table)),
      () => table.set(this.junkKey(), this.junk() as never),
      () => doc.getMap(this.pick(['secret', '__proto__', 'constructor', 'tests2'])).set('a', 1),
      () => doc.getArray(this.pick([kind, 'list'])).push([this.junk()]),
      () => doc.getText(this.pick([kind, 'words'])).insert(0, 'x'),
      () => doc.getXmlFragment(this.pick([kind, 'tree'])).insert(0, [new Y.XmlElement('script')]),
      () => this.many(table),
      () => this.intoText(doc),
    ]
    doc.transact(() => this.pick(deeds)())
  }

  private put(doc: Y.Doc, kind: KindName, id: string, author: string): void {
    const at = new Date(this.nowMs - this.pick([0, 0, 0, 60_000, -3_600_000, 40 * 86_400_000])).toISOString()
    const shared = sharedOf(kind, sampleRecord(kind, id, author, at))
    if (this.chance(0.2)) shared.set(this.junkKey(), this.junk())
    tableOf(doc, kind).set(id, shared)
  }

  private change(doc: Y.Doc, kind: KindName, id: string): void {
    const record = tableOf(doc, kind).get(id)
    if (!(record instanceof Y.Map)) return
    const fields = [...record.keys(), ...Object.keys(kindOf(kind).change)]
    const field = this.chance(0.1) ? this.junkKey() : this.pick(fields)
    if (this.chance(0.15)) return record.delete(field)
    const sample = sampleRecord(kind, id, this.pick(['seed', 'p1', 'p2']), new Date(this.nowMs).toISOString())
    record.set(field, this.chance(0.5) ? sample[this.pick(Object.keys(sample))] : this.junk())
  }

  private intoText(doc: Y.Doc): void {
    const note = [...tableOf(doc, 'notes' as KindName).values()].find((value) => value instanceof Y.Map)
    const body = note instanceof Y.Map ? note.get('body') : undefined
    if (!(body instanceof Y.XmlFragment)) return
    const element = new Y.XmlElement(this.pick(['paragraph', 'script', 'iframe', 'heading']))
    if (this.chance(0.5)) element.setAttribute(this.pick(['onclick', 'level', 'style']), 'alert(1)')
    element.insert(0, [new Y.XmlText(this.pick(['text', '<script>', '\u202e']))])
    body.insert(0, [this.chance(0.1) ? (new Y.Map() as never) : element])
  }

  private many(table: Y.Map<unknown>): void {
    const record = new Y.Map<unknown>()
    for (let n = 0; n < 200; n++) record.set(`field${n}`, n)
    table.set(this.junkKey(), record)
  }

  private junk(): unknown {
    return this.pick<() => unknown>([
      () => null,
      () => this.random() * 1e9,
      () => Number.NaN,
      () => 'x'.repeat(this.pick([0, 1, 2000, 20_000])),
      () => '\u202e<script>alert(1)</script>',
      () => new Y.Map([['deep', new Y.Map()]]),
      () => new Y.Array(),
      () => new Y.Text('disguised'),
      () => new Y.XmlFragment(),
      () => new Y.Doc(),
      () => new Uint8Array(64),
      () => JSON.parse('{"__proto__": {"polluted": true}}'),
      () => ({ constructor: { prototype: { polluted: true } } }),
      () => Array.from({ length: 500 }, (_, index) => index),
      () => [[[[[['nested']]]]]],
      () => true,
    ])()
  }

  private readonly junkKey = (): string =>
    this.pick([
      'only',
      'n1',
      '__proto__',
      'constructor',
      'prototype',
      '',
      'a'.repeat(300),
      '../../etc',
      'x\ny',
      '\u0000',
    ])

  private anyKey(table: Y.Map<unknown>): string {
    const keys = [...table.keys()]
    return keys.length === 0 ? 'only' : this.pick(keys)
  }

  /** Cut off, with bits turned, twice, or as bytes of nothing. */
  private mangled(update: Uint8Array): Uint8Array {
    return this.pick([
      () => update.slice(0, this.upTo(update.length)),
      () => this.noise(update),
      () => Y.mergeUpdates([update, update]),
      () => new Uint8Array([...update, ...update]),
      () => Uint8Array.from({ length: this.upTo(80) }, () => this.upTo(255)),
      // Declares much and holds little.
      () => Uint8Array.of(255, 255, 255, 255, 15, 1, 2, 3),
    ])()
  }

  private noise(bytes: Uint8Array): Uint8Array {
    const turned = Uint8Array.from(bytes)
    for (let n = 0; n < 1 + this.upTo(3); n++) {
      const at = this.upTo(Math.max(0, turned.length - 1))
      turned[at] = (turned[at] ?? 0) ^ (1 << this.upTo(7))
    }
    return turned
  }

  private count(code: string): void {
    this.tally.refused.set(code, (this.tally.refused.get(code) ?? 0) + 1)
  }

  private readonly chance = (share: number): boolean => this.random() < share
  /** a whole number from 0 to `most`, both included */
  private readonly upTo = (most: number): number => Math.floor(this.random() * (most + 1))
  private pick<T>(items: readonly T[]): T {
    const item = items[Math.floor(this.random() * items.length)]
    if (item === undefined) throw new RangeError('nothing to pick from')
    return item
  }
}

function sharedOf(kind: KindName, record: Raw): Y.Map<unknown> {
  const nested = kindOf(kind).nested ?? {}
  const fields = Object.entries(record).map(([field, value]): [string, unknown] => {
    if (nested[field] === 'text') return [field, new Y.XmlFragment()]
    return [field, nested[field] === 'map' ? new Y.Map(Object.entries(value as Raw)) : value]
  })
  return new Y.Map(fields)
}
