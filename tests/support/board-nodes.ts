import { ensureBuilt } from '../../scripts/steps/build.mjs'
import { TestPostgres } from './postgres.ts'
import { TestServer, type Visitor } from './start-server.ts'
import { TcpProxy } from './tcp-proxy.ts'
import { makeTemporaryFolder, removeFolder } from './temporary-folder.ts'

/** Several processes of one board on one PostgreSQL, each with a link to the database that a test can break. */
export class BoardNodes {
  readonly postgres: TestPostgres
  readonly database: string
  readonly nodes: TestServer[] = []
  readonly links: TcpProxy[] = []
  readonly #folder: string
  readonly #env: Readonly<Record<string, string>>

  /** @param env settings of all of them beside those that lead to the database */
  static async start(count: number, env: Readonly<Record<string, string>> = {}): Promise<BoardNodes> {
    await ensureBuilt()
    const postgres = await TestPostgres.start()
    const board = new BoardNodes(postgres, await postgres.newDatabase(), await makeTemporaryFolder(), env)
    for (let made = 0; made < count; made++) await board.#add()
    await Promise.all(board.nodes.map((node) => node.start(0)))
    return board
  }

  private constructor(postgres: TestPostgres, database: string, folder: string, env: Readonly<Record<string, string>>) {
    this.postgres = postgres
    this.database = database
    this.#folder = folder
    this.#env = env
  }

  /** The process of this number. */
  node(index: number): TestServer {
    const node = this.nodes[index]
    if (node === undefined) throw new RangeError(`There are ${this.nodes.length} processes; none is number ${index}.`)
    return node
  }

  link(index: number): TcpProxy {
    const link = this.links[index]
    if (link === undefined) throw new RangeError(`There is no link of process ${index}.`)
    return link
  }

  /** Where somebody's client connects to at one of the processes, and with what. */
  socketAt(index: number, document: string, { cookie }: Visitor): [string, { cookie: string; origin: string }] {
    const { syncUrl, url } = this.node(index)
    return [`${syncUrl}/${document}?own=1`, { cookie, origin: url }]
  }

  async stop(): Promise<void> {
    await Promise.all(this.nodes.map((node) => node.kill9()))
    await Promise.all(this.links.map((link) => link.close()))
    await this.postgres.stop()
    await removeFolder(this.#folder)
  }

  async #add(): Promise<void> {
    const link = await TcpProxy.to(this.postgres.port)
    this.links.push(link)
    const environment = { DEMO: '0', ...this.#env, DATABASE_URL: this.postgres.urlOf(this.database, link.port) }
    // One folder for all: it holds the key that they have to share.
    this.nodes.push(new TestServer(environment, this.#folder))
  }
}
