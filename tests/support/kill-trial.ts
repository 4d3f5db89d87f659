import * as Y from 'yjs'
import { startNote } from '../../lib/board/edits/decisions.ts'
import { readTable } from '../../lib/board/reading.ts'
import type { DocumentKind } from '../../lib/board/records.ts'
import type { Role } from '../../lib/board/roles.ts'
import { contents, RandomEditor, slots } from './random-editor.ts'
import type { TestServer } from './start-server.ts'
import { StubbornClient } from './stubborn-client.ts'

const roles: readonly Role[] = ['moderator', 'team', 'team', 'panel', 'panel']
const kinds = ['record', 'floor'] as const

/** What came of one kill. */
export interface KillRound {
  /** what is wrong, in words; empty where nothing was lost and all copies agree */
  readonly faults: readonly string[]
  /** things of others that people had seen at the kill */
  readonly seen: number
  /** how long the server took to be there again */
  readonly restartMs: number
}

/**
 * [R1] Five people write into one case while its server is killed: everything that anybody else had seen and everything that
 * was called stored has to be there afterwards, and all copies have to become equal again.
 */
export class KillTrial {
  readonly #server: TestServer
  readonly #caseId: string
  readonly #people: readonly RandomEditor[]
  readonly #random: () => number

  static async open(server: TestServer, random: () => number): Promise<KillTrial> {
    const caseId = await server.createCase('Kill')
    const people = await Promise.all(
      roles.map(async (role, index) => {
        const slot = slots[index % slots.length] ?? slots[0]
        return new RandomEditor({ visitor: await server.join(role, `Person ${index}`), role, slot, random })
      }),
    )
    const trial = new KillTrial(server, caseId, people, random)
    await trial.#connectAll()
    await trial.#shareNote()
    return trial
  }

  private constructor(server: TestServer, caseId: string, people: readonly RandomEditor[], random: () => number) {
    this.#server = server
    this.#caseId = caseId
    this.#people = people
    this.#random = random
  }

  /** Edits for a random time, kills, starts again, and looks. */
  async round(): Promise<KillRound> {
    const stopEditing = this.#startEditing()
    await new Promise((resolve) => setTimeout(resolve, 80 + this.#random() * 300))
    await this.#server.kill9()
    const seen = kinds.flatMap((kind) => this.#people.flatMap((person) => person.seenOfOthers(kind)))
    stopEditing()
    const startedMs = performance.now()
    await this.#server.start()
    const restartMs = performance.now() - startedMs
    const kept = new Set<string>()
    for (const kind of kinds) for (const line of contents(await this.#freshCopy(kind), kind)) kept.add(line)
    const lost = [...new Set(seen)].filter((line) => !kept.has(line)).map((line) => `${line} was seen and is lost`)
    await this.#connectAll()
    return { faults: [...lost, ...(await this.#converge())], seen: seen.length, restartMs }
  }

  close(): void {
    for (const { copies } of this.#people) for (const kind of kinds) copies[kind].close()
  }

  #startEditing(): () => void {
    const timers = this.#people.map((person) => setInterval(() => person.edit(), 8 + this.#random() * 20))
    return () => timers.forEach(clearInterval)
  }

  /** Everybody's edits are stored, and every copy equals what the server gives to somebody new. */
  async #converge(): Promise<string[]> {
    const faults: string[] = []
    for (const kind of kinds) {
      await Promise.all(this.#people.map(({ copies }) => copies[kind].settled()))
      for (const { copies } of this.#people) faults.push(...copies[kind].refused.map((why) => `refused: ${why}`))
      if (faults.length > 0) return faults
      const truth = await this.#freshCopy(kind)
      const wanted = JSON.stringify(contents(truth, kind).sort())
      const isThere = (doc: Y.Doc) => JSON.stringify(contents(doc, kind).sort()) === wanted
      await Promise.all(this.#people.map(({ copies }) => copies[kind].until(() => isThere(copies[kind].doc))))
      const apart = this.#people.filter(({ copies }) => !equalState(copies[kind].doc, truth))
      faults.push(...apart.map(({ id }) => `the copy of the ${kind} of ${id} is another`))
    }
    return faults
  }

  async #connectAll(): Promise<void> {
    await Promise.all(this.#people.map((person) => person.connect((kind) => this.#address(kind), this.#server.url)))
  }

  async #shareNote(): Promise<void> {
    const [moderator] = this.#people
    if (moderator === undefined) return
    const pen = { participant: moderator.id, now: () => new Date(), newId: () => 'shared-note' }
    moderator.copies.record.edit('note', (doc) => startNote(doc, pen, 'finding'))
    const hasNote = ({ doc }: StubbornClient) => readTable(doc, 'notes').length === 1
    await Promise.all(this.#people.map(({ copies: { record } }) => record.until(() => hasNote(record))))
  }

  async #freshCopy(kind: DocumentKind): Promise<Y.Doc> {
    const client = new StubbornClient()
    const cookie = this.#people[0]?.visitor.cookie ?? ''
    await client.connect(this.#address(kind), { cookie, origin: this.#server.url })
    client.close()
    return client.doc
  }

  #address(kind: DocumentKind): string {
    return `${this.#server.syncUrl}/${kind}.${this.#caseId}?own=1`
  }
}

const equalState = (a: Y.Doc, b: Y.Doc): boolean => Y.equalSnapshots(Y.snapshot(a), Y.snapshot(b))
