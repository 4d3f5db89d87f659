import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { chmod, chown, mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import pg from 'pg'
import { findPostgres, unprivileged } from '../../scripts/steps/postgres.mjs'
import { freePort } from './free-port.ts'
import { makeTemporaryFolder, removeFolder } from './temporary-folder.ts'

/** A PostgreSQL server of a test's own, on a free port and in a temporary folder. */
export class TestPostgres {
  readonly #folder: string
  readonly #programs: string
  readonly #port: number
  #process: ChildProcess | undefined
  #made = 0

  static async start(): Promise<TestPostgres> {
    const programs = await findPostgres()
    if (programs === undefined) throw new Error('No PostgreSQL here; npm test installs one where it can.')
    const server = new TestPostgres(await makeTemporaryFolder(), programs, await freePort())
    await server.#initialise()
    await server.start()
    return server
  }

  private constructor(folder: string, programs: string, port: number) {
    this.#folder = folder
    this.#programs = programs
    this.#port = port
  }

  get port(): number {
    return this.#port
  }

  /** @param port another one that leads here, such as that of a proxy */
  urlOf(database: string, port = this.#port): string {
    return `postgres://postgres@127.0.0.1:${port}/${database}`
  }

  /** @returns the name of an empty database */
  async newDatabase(): Promise<string> {
    const name = `board_${process.pid}_${++this.#made}`
    await this.ask('postgres', `CREATE DATABASE ${name}`)
    return name
  }

  async ask(database: string, sql: string): Promise<Record<string, unknown>[]> {
    const client = new pg.Client({ connectionString: this.urlOf(database) })
    await client.connect()
    try {
      return (await client.query(sql)).rows
    } finally {
      await client.end()
    }
  }

  /** Starts it again on the same port and data. */
  async start(): Promise<void> {
    const settings = { listen_addresses: '127.0.0.1', unix_socket_directories: '', max_connections: '200' }
    const child = this.#run('postgres', [
      '-D',
      this.#data,
      '-p',
      String(this.#port),
      ...Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`]),
    ])
    this.#process = child
    const ended = once(child, 'exit').then(() => 'ended')
    for (;;) {
      const outcome = await Promise.race([ended, this.#answers()])
      if (outcome === 'ended') throw new Error(`PostgreSQL ended at its start: ${this.#said}`)
      if (outcome === true) return
      await new Promise((resolve) => setTimeout(resolve, 50))
    }
  }

  /** Ends it at once, as when the machine goes down: SIGQUIT is its immediate shutdown. */
  async halt(): Promise<void> {
    const child = this.#process
    this.#process = undefined
    if (child === undefined || child.exitCode !== null) return
    const exited = once(child, 'exit')
    child.kill('SIGQUIT')
    await exited
  }

  async stop(): Promise<void> {
    await this.halt()
    await removeFolder(this.#folder)
  }

  get #data(): string {
    return join(this.#folder, 'data')
  }

  #said = ''

  async #initialise(): Promise<void> {
    // PostgreSQL refuses to run as root; then it runs as nobody, who has to reach the folder.
    const user = unprivileged()
    await chmod(this.#folder, 0o755)
    await mkdir(this.#data, { mode: 0o700 })
    if (user.uid !== undefined) await chown(this.#data, user.uid, user.gid)
    const child = this.#run('initdb', ['-D', this.#data, '-U', 'postgres', '-A', 'trust', '-E', 'UTF8', '--no-sync'])
    const [code] = await once(child, 'exit')
    if (code !== 0) throw new Error(`initdb ended with ${code}: ${this.#said}`)
  }

  #run(program: string, args: readonly string[]): ChildProcess {
    const env = { ...process.env, LC_ALL: 'C' }
    const child = spawn(join(this.#programs, program), args, {
      ...unprivileged(),
      cwd: '/',
      env,
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (chunk: Buffer) => {
        this.#said = (this.#said + chunk).slice(-4000)
      })
    return child
  }

  async #answers(): Promise<boolean> {
    const client = new pg.Client({ connectionString: this.urlOf('postgres') })
    client.on('error', () => undefined)
    try {
      await client.connect()
      return true
    } catch {
      return false
    } finally {
      await client.end().catch(() => undefined)
    }
  }
}
