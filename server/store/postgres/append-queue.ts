import { StoreBehind, StoreConflict, StoreOutage, type UpdateEntry } from '../store.ts'
import type { Db } from './database.ts'

/** Updates and bytes sent in one statement at most: bounds how long the first of a flood waits for its answer. */
const mostEntries = 512
const mostBytes = 8 * 1024 * 1024

interface Waiting {
  readonly entries: readonly UpdateEntry[]
  readonly afterSeq: number | undefined
  readonly resolve: (seqs: readonly number[]) => void
  readonly reject: (error: Error) => void
}

type Answer =
  | { readonly kind: 'done'; readonly seqs: readonly number[] }
  | { readonly kind: 'behind' | 'conflict'; readonly message: string }

/**
 * Appends in the order in which they were asked for, one statement at a time; what is asked for meanwhile goes together
 * in the next. So numbers follow the order of the calls, and many small edits cost one commit.
 */
export class AppendQueue {
  readonly #db: Db
  readonly #queued: Waiting[] = []
  #running = false

  constructor(db: Db) {
    this.#db = db
  }

  append(entries: readonly UpdateEntry[], afterSeq: number | undefined): Promise<readonly number[]> {
    if (entries.length === 0) return Promise.resolve([])
    return new Promise((resolve, reject) => {
      this.#queued.push({ entries, afterSeq, resolve, reject })
      if (!this.#running) void this.#run()
    })
  }

  async #run(): Promise<void> {
    this.#running = true
    // What is asked for in this turn goes together.
    await new Promise((resolve) => setImmediate(resolve))
    while (this.#queued.length > 0) await this.#send(this.#nextBatch())
    this.#running = false
  }

  #nextBatch(): Waiting[] {
    const batch: Waiting[] = []
    let [entries, bytes] = [0, 0]
    while (this.#queued[0] !== undefined && entries < mostEntries && bytes < mostBytes) {
      const next = this.#queued.shift() as Waiting
      entries += next.entries.length
      for (const { update } of next.entries) bytes += update.length
      batch.push(next)
    }
    return batch
  }

  async #send(batch: readonly Waiting[]): Promise<void> {
    try {
      const requests = batch.map(({ entries, afterSeq }) => ({ afterSeq, entries: entries.map(toRow) }))
      const bodies = batch.flatMap(({ entries }) => entries.map(({ update }) => asBuffer(update)))
      const [found] = await this.#db.rows<{ answers: readonly Answer[] }>('SELECT append_updates($1, $2) AS answers', [
        JSON.stringify(requests),
        bodies,
      ])
      for (const [index, waiting] of batch.entries()) settle(found?.answers[index], waiting)
    } catch (error) {
      for (const { reject } of batch) reject(error as Error)
    }
  }
}

const toRow = ({ update: _, marks = [], ...entry }: UpdateEntry) => ({ ...entry, marks })

const asBuffer = ({ buffer, byteOffset, byteLength }: Uint8Array) => Buffer.from(buffer, byteOffset, byteLength)

function settle(answer: Answer | undefined, { resolve, reject }: Waiting): void {
  if (answer === undefined) reject(new StoreOutage('The database left an append unanswered.'))
  else if (answer.kind === 'done') resolve(answer.seqs)
  else reject(answer.kind === 'behind' ? new StoreBehind(answer.message) : new StoreConflict(answer.message))
}
