import { type ChildProcess, execFile, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { vi } from 'vitest'
import { findProgram } from '../../scripts/steps/deploy-programs.mjs'
import { root } from '../../scripts/steps/run.mjs'
import { freePort } from './free-port.ts'
import { makeTemporaryFolder, removeFolder } from './temporary-folder.ts'

const execute = promisify(execFile)
const nginx = findProgram('nginx') ?? 'nginx'

/** The proxy of deploy/nginx in front of servers of a test: only its ports, its certificate and its folders are others. */
export class TestNginx {
  readonly #folder: string
  readonly #port: number
  #process: ChildProcess | undefined

  static async prepare(): Promise<TestNginx> {
    const proxy = new TestNginx(await makeTemporaryFolder(), await freePort())
    await proxy.#makeCertificate()
    return proxy
  }

  private constructor(folder: string, port: number) {
    this.#folder = folder
    this.#port = port
  }

  /** What people open. */
  get origin(): string {
    return `https://localhost:${this.#port}`
  }

  /** @param upstream name of the file that says where the servers are */
  async start(upstream: 'one-server' | 'two-servers', serverPorts: readonly number[]): Promise<void> {
    await this.#write('upstream.conf', moved(await example(upstream), serverPorts))
    await this.#write('promontory.conf', this.#adapted(await example('promontory'), await freePort()))
    await this.#write('nginx.conf', this.#main())
    const args = ['-p', this.#folder, '-c', join(this.#folder, 'nginx.conf')]
    await execute(nginx, ['-t', ...args])
    const child = spawn(nginx, args, { stdio: 'ignore' })
    this.#process = child
    await vi.waitFor(() => fetch(this.origin).catch((error) => refusedOnly(error)), { timeout: 10_000 })
  }

  /** Everything that it wrote to its logs. */
  async logs(): Promise<{ readonly access: string; readonly errors: string }> {
    const [access, errors] = await Promise.all(
      ['promontory.log', 'promontory-error.log'].map((name) => readFile(join(this.#folder, name), 'utf8')),
    )
    return { access: access ?? '', errors: errors ?? '' }
  }

  async stop(): Promise<void> {
    const child = this.#process
    if (child !== undefined && child.exitCode === null) {
      const exited = once(child, 'exit')
      child.kill('SIGTERM')
      await exited
    }
    await removeFolder(this.#folder)
  }

  #adapted(text: string, plainPort: number): string {
    return text
      .replace('listen 443 ssl', `listen 127.0.0.1:${this.#port} ssl`)
      .replace('listen 80;', `listen 127.0.0.1:${plainPort};`)
      .replaceAll('board.example.org', 'localhost')
      .replaceAll('/etc/ssl/', `${this.#folder}/`)
      .replaceAll('/var/log/nginx/', `${this.#folder}/`)
  }

  #main(): string {
    const folders = ['client_body', 'proxy', 'fastcgi', 'uwsgi', 'scgi'].map(
      (name) => `${name}_temp_path ${this.#folder}/${name};`,
    )
    // Its workers would otherwise be somebody who may not look into the folder of a test that root runs.
    return `daemon off;
${process.getuid?.() === 0 ? 'user root;' : ''}
pid ${this.#folder}/nginx.pid;
error_log ${this.#folder}/main-error.log;
worker_processes 1;
events { worker_connections 512; }
http { ${folders.join(' ')} include ${this.#folder}/upstream.conf; include ${this.#folder}/promontory.conf; }
`
  }

  async #makeCertificate(): Promise<void> {
    await mkdir(this.#folder, { recursive: true })
    const [key, certificate] = [join(this.#folder, 'board.key'), join(this.#folder, 'board.pem')]
    const subject = ['-subj', '/CN=localhost', '-days', '2', '-nodes', '-newkey', 'rsa:2048']
    await execute(findProgram('openssl') ?? 'openssl', [
      'req',
      '-x509',
      ...subject,
      '-keyout',
      key,
      '-out',
      certificate,
    ])
  }

  #write(name: string, text: string): Promise<void> {
    return writeFile(join(this.#folder, name), text)
  }
}

const example = (name: string): Promise<string> => readFile(join(root, 'deploy', 'nginx', `${name}.conf`), 'utf8')

/** The same file with the ports of a test's own servers. */
function moved(text: string, ports: readonly number[]): string {
  const rest = [...ports]
  return text.replaceAll(/127\.0\.0\.1:\d+/g, () => `127.0.0.1:${rest.shift()}`)
}

/** A certificate that nobody vouches for is an answer too. */
function refusedOnly(error: unknown): void {
  if (String((error as { cause?: unknown }).cause).includes('ECONNREFUSED')) throw error
}
