import pg from 'pg'
import { connectionSettings, type Db } from '../store/postgres/database.ts'
import { Attendance, type Listener, type Neighbours, Notice } from './neighbours.ts'

export const channel = 'promontory'

/** How often a process says that it is there, and looks whether the others are. */
const beatMs = 2_000
/** Whoever has not been heard of for so long has ended. */
const goneAfterMs = 10_000
const isThere = `seen_at > now() - interval '${goneAfterMs} milliseconds'`
const retryMs = 500
/** Notices kept while the database is out of reach; of more the oldest are dropped, and the others read the store. */
const mostWaiting = 1_000

/** @param node a name that no other process has */
export async function joinPostgres(url: string, db: Db, node: string): Promise<PostgresNeighbours> {
  const neighbours = new PostgresNeighbours(url, db, node)
  await neighbours.connect()
  return neighbours
}

/** Notices over LISTEN and NOTIFY, on a connection of their own that is made again whenever it is lost. */
export class PostgresNeighbours implements Neighbours {
  readonly possible = true
  readonly #url: string
  readonly #db: Db
  readonly #node: string
  readonly #listeners = new Set<Listener>()
  #client: pg.Client | undefined
  #waiting: Notice[] = []
  #sending = false
  #known: ReadonlySet<string> = new Set()
  #beating: NodeJS.Timeout | undefined
  #retrying: NodeJS.Timeout | undefined
  #closed = false

  constructor(url: string, db: Db, node: string) {
    this.#url = url
    this.#db = db
    this.#node = node
  }

  get inTouch(): boolean {
    return this.#client !== undefined
  }

  tell(notice: Notice): void {
    this.#waiting.push(notice)
    if (this.#waiting.length > mostWaiting) this.#waiting.shift()
    if (!this.#sending) void this.#send()
  }

  listen(listener: Listener): void {
    this.#listeners.add(listener)
  }

  async attend(document: string, attendance: Attendance | null): Promise<void> {
    if (attendance === null)
      await this.#db.change('DELETE FROM attendance WHERE node = $1 AND document = $2', [this.#node, document])
    else
      await this.#db.change(
        `INSERT INTO attendance (node, document, present) VALUES ($1, $2, $3)
         ON CONFLICT (node, document) DO UPDATE SET present = excluded.present`,
        [this.#node, document, JSON.stringify(attendance)],
      )
    this.tell({ kind: 'attendance-changed', document })
  }

  async attendance(document: string): Promise<readonly Attendance[]> {
    const rows = await this.#db.rows<{ present: unknown }>(
      `SELECT a.present FROM attendance a JOIN nodes USING (node)
       WHERE document = $1 AND node <> $2 AND ${isThere}`,
      [document, this.#node],
    )
    return rows.flatMap(({ present }) => Attendance.safeParse(present).data ?? [])
  }

  async connect(): Promise<void> {
    const client = new pg.Client(connectionSettings(this.#url))
    client.on('error', () => this.#lose(client))
    client.on('end', () => this.#lose(client))
    client.on('notification', ({ payload }) => this.#hear(payload ?? ''))
    await client.connect()
    await client.query(`LISTEN ${channel}`)
    if (this.#closed) return void client.end()
    this.#client = client
    this.#known = await this.#beat(client)
    this.#beating = setInterval(() => this.#watch(client), beatMs)
    void this.#send()
  }

  async close(): Promise<void> {
    this.#closed = true
    clearTimeout(this.#retrying)
    clearInterval(this.#beating)
    const client = this.#client
    this.#client = undefined
    if (client === undefined) return
    try {
      // What others are still to hear goes first.
      await this.#notify(client, [...this.#waiting.splice(0), { kind: 'leaving' }])
      await client.query('DELETE FROM nodes WHERE node = $1', [this.#node])
    } finally {
      await client.end()
    }
  }

  async #send(): Promise<void> {
    this.#sending = true
    // What is told in the same turn goes together.
    await new Promise((resolve) => setImmediate(resolve))
    const client = this.#client
    const notices = client === undefined ? [] : latestOf(this.#waiting.splice(0))
    try {
      if (client !== undefined && notices.length > 0) await this.#notify(client, notices)
    } catch {
      this.#waiting.unshift(...notices)
      if (client !== undefined) this.#lose(client)
    }
    this.#sending = false
    if (this.#client !== undefined && this.#waiting.length > 0) void this.#send()
  }

  async #notify(client: pg.Client, notices: readonly Notice[]): Promise<void> {
    const payloads = notices.map((notice) => JSON.stringify({ from: this.#node, notice }))
    await client.query('SELECT pg_notify($1, payload) FROM unnest($2::text[]) AS payload', [channel, payloads])
  }

  #hear(payload: string): void {
    const { from, notice } = JSON.parse(payload) as { from: string; notice: unknown }
    // A newer version of the program, in the middle of an upgrade, may say what this one does not understand.
    const read = Notice.safeParse(notice)
    if (from === this.#node || !read.success) return
    if (read.data.kind === 'leaving') this.#left(from)
    else for (const listener of this.#listeners) listener.heard?.(from, read.data)
  }

  #left(node: string): void {
    for (const listener of this.#listeners) listener.left?.(node)
  }

  /** Says that this process is there. @returns which others are */
  async #beat(client: pg.Client): Promise<ReadonlySet<string>> {
    await client.query(
      'INSERT INTO nodes (node, seen_at) VALUES ($1, now()) ON CONFLICT (node) DO UPDATE SET seen_at = now()',
      [this.#node],
    )
    await client.query(`DELETE FROM nodes WHERE seen_at < now() - interval '${10 * goneAfterMs} milliseconds'`)
    const others = `SELECT node FROM nodes WHERE node <> $1 AND ${isThere}`
    const found = await client.query<{ node: string }>(others, [this.#node])
    return new Set(found.rows.map(({ node }) => node))
  }

  #watch(client: pg.Client): void {
    this.#beat(client).then(
      (there) => {
        for (const node of this.#known) if (!there.has(node)) this.#left(node)
        this.#known = there
      },
      () => this.#lose(client),
    )
  }

  #lose(client: pg.Client): void {
    if (this.#client !== client) return
    this.#client = undefined
    clearInterval(this.#beating)
    client.end().catch(() => undefined)
    this.#retry()
  }

  #retry(): void {
    if (this.#closed) return
    this.#retrying = setTimeout(() => {
      this.connect().then(
        () => {
          for (const listener of this.#listeners) listener.missed?.()
        },
        () => this.#retry(),
      )
    }, retryMs)
  }
}

/** Of what a document's log reaches only the last word counts. */
function latestOf(notices: readonly Notice[]): Notice[] {
  const last = new Map(notices.flatMap((notice) => (notice.kind === 'appended' ? [[notice.document, notice]] : [])))
  return notices.filter((notice) => notice.kind !== 'appended' || last.get(notice.document) === notice)
}
