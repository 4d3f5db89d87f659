import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import type { Role } from '../../lib/board/roles.ts'
import {
  CaseSummary,
  CreatedInvitation,
  type InvitationScope,
  JoinAnswer,
  type NewInvitation,
  type Person,
  Programme,
} from '../../lib/interchange/api.ts'
import { ensureBuilt } from '../../scripts/steps/build.mjs'
import { root } from '../../scripts/steps/run.mjs'
import { serverArguments, serverEnvironment } from '../../scripts/steps/server-process.mjs'
import { makeTemporaryFolder, removeFolder } from './temporary-folder.ts'

export interface ApiAnswer {
  readonly status: number
  readonly body: unknown
  /** `name=value` of the cookie that the answer sets, if any: what a Cookie header carries back. */
  readonly cookie: string | undefined
}

export interface Visitor {
  /** The Cookie header of this person's requests and sockets. */
  readonly cookie: string
  readonly participant: Person
}

export interface StartOptions {
  /** With the demo programme; false by default. */
  readonly demo?: boolean
  readonly env?: Readonly<Record<string, string>>
  /** Another Node, and the folder of another copy of the project, built with it; by default this one's. */
  readonly program?: Program
}

export interface Program {
  readonly node: string
  readonly folder: string
}

/**
 * Starts the built server (building it when stale) as a process of its own, on a free port and in a folder of its own.
 * Call `stop()` at the end, also after `kill9()`.
 */
export async function startServer({ demo = false, env = {}, program }: StartOptions = {}): Promise<TestServer> {
  if (program === undefined) await ensureBuilt()
  const server = new TestServer({ DEMO: demo ? '1' : '0', ...env }, await makeTemporaryFolder(), program)
  await server.start(0)
  return server
}

export class TestServer {
  readonly dataDir: string
  readonly #env: Readonly<Record<string, string>>
  readonly #program: Program
  #process: ChildProcess | undefined
  #port = 0
  #links = new Map<string, string>()
  #owner: Promise<Visitor> | undefined
  #programme: Promise<string> | undefined
  /** Everything that the server wrote to its standard error: its log. */
  errors = ''
  /** Everything that it wrote to its standard output. */
  printed = ''

  constructor(
    env: Readonly<Record<string, string>>,
    dataDir: string,
    program: Program = { node: process.execPath, folder: root },
  ) {
    this.#env = env
    this.#program = program
    this.dataDir = dataDir
  }

  get url(): string {
    return `http://127.0.0.1:${this.#port}`
  }

  /** Where a y-websocket client connects to. */
  get syncUrl(): string {
    return `ws://127.0.0.1:${this.#port}/sync`
  }

  get ownerLink(): string {
    return this.link('owner')
  }

  get pid(): number | undefined {
    return this.#process?.pid
  }

  /** A link that was printed at the first start: `owner`, and with the demo one for each role. */
  link(who: string): string {
    const link = this.#links.get(who)
    if (link === undefined) throw new RangeError(`The server printed no link for ${who}.`)
    return link
  }

  async start(port = this.#port): Promise<void> {
    const { node, folder } = this.#program
    const child = spawn(node, serverArguments, {
      cwd: folder,
      env: { ...process.env, ...serverEnvironment, ...this.#env, PORT: String(port), DATA_DIR: this.dataDir },
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    this.#process = child
    let output = ''
    let log = ''
    await new Promise<void>((resolve, reject) => {
      const look = () => {
        if (/The board is at \S+\n\n/.test(output) && listening.test(log)) resolve()
      }
      child.stderr.on('data', (chunk) => {
        log += chunk
        this.errors += chunk
        look()
      })
      child.once('exit', (code) => reject(new Error(`The server ended with ${code} at its start:\n${this.errors}`)))
      child.stdout.on('data', (chunk) => {
        output += chunk
        this.printed += chunk
        look()
      })
    })
    this.#port = Number(listening.exec(log)?.[1])
    for (const [, who, link] of output.matchAll(/^ {2}(\S+) +(http\S+)$/gm)) this.#links.set(who ?? '', link ?? '')
  }

  /** Ends the server in good order. */
  async terminate(): Promise<number | null> {
    return this.#end('SIGTERM')
  }

  /** Ends the server without any warning. */
  async kill9(): Promise<void> {
    await this.#end('SIGKILL')
  }

  /** Starts again on the same port and data; ends the running server in good order first. */
  async restart(): Promise<void> {
    await this.terminate()
    await this.start()
  }

  /** Ends the server and removes its data. */
  async stop(): Promise<void> {
    await this.terminate()
    await removeFolder(this.dataDir)
  }

  async #end(signal: NodeJS.Signals): Promise<number | null> {
    const child = this.#process
    this.#process = undefined
    if (child === undefined || child.exitCode !== null || child.signalCode !== null) return child?.exitCode ?? null
    const exited = once(child, 'exit')
    child.kill(signal)
    await exited
    return child.exitCode
  }

  async get(path: string, cookie = ''): Promise<ApiAnswer> {
    return readAnswer(await fetch(this.url + path, { headers: { cookie } }))
  }

  async post(path: string, body: unknown, cookie = ''): Promise<ApiAnswer> {
    const headers = { cookie, origin: this.url, 'content-type': 'application/json' }
    return readAnswer(await fetch(this.url + path, { method: 'POST', headers, body: JSON.stringify(body) }))
  }

  /** The owner, who joins by the printed link at the first call. */
  owner(): Promise<Visitor> {
    this.#owner ??= this.joinBy(this.ownerLink, 'Owner')
    return this.#owner
  }

  /** A programme of this test's own, made at the first call. */
  programme(): Promise<string> {
    this.#programme ??= this.#createProgramme()
    return this.#programme
  }

  async createCase(label = 'Case'): Promise<string> {
    const { cookie } = await this.owner()
    const answer = await this.post(`/api/programmes/${await this.programme()}/cases`, { label }, cookie)
    return CaseSummary.parse(answer.body).id
  }

  /** Invites somebody and joins as them. By default into the test's own programme, so with that role in all its cases. */
  async join(role: Role, name: string, scope?: Exclude<InvitationScope, { kind: 'installation' }>): Promise<Visitor> {
    return this.joinBy(await this.invite({ role, label: name, scope: scope ?? (await this.#ownScope()) }), name)
  }

  /** @returns the whole link of a new invitation */
  async invite(wanted: NewInvitation): Promise<string> {
    const { cookie } = await this.owner()
    return this.url + CreatedInvitation.parse((await this.post('/api/invitations', wanted, cookie)).body).path
  }

  async joinBy(link: string, name: string, affiliation = 'Test clinic'): Promise<Visitor> {
    const token = link.split('/').at(-1)
    const { body, cookie = '' } = await this.post('/api/join', { token, name, affiliation })
    return { cookie, participant: JoinAnswer.parse(body).participant }
  }

  async #ownScope(): Promise<Exclude<InvitationScope, { kind: 'installation' }>> {
    return { kind: 'programme', id: await this.programme() }
  }

  async #createProgramme(): Promise<string> {
    const { cookie } = await this.owner()
    return Programme.parse((await this.post('/api/programmes', { label: 'Test programme' }, cookie)).body).id
  }
}

/** The line of the log that tells the port; what is printed names the public address. */
const listening = /"event":"listening".*"port":(\d+)/

async function readAnswer(response: Response): Promise<ApiAnswer> {
  const cookie = response.headers.get('set-cookie')?.split(';')[0]
  return { status: response.status, body: await response.json(), cookie }
}
