import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { root } from '../../scripts/steps/run.mjs'
import { startServer, type TestServer } from '../support/start-server.ts'

/** A sync server under measurement, in a process of its own. */
export interface Contestant {
  readonly name: string
  readonly pid: number
  /** Address of one shared document for one more connection. */
  readonly address: string
  /** whom the server takes the connections for */
  readonly participant: string
  stop(): Promise<void>
}

const referenceFolder = fileURLToPath(new URL('reference/', import.meta.url))

/** Ours as it is run: built, with guard and durable SQLite, entered with a ticket for a panel member. */
export async function startOurs(): Promise<Contestant> {
  const server: TestServer = await startServer()
  const caseId = await server.createCase('Bench')
  const ticket = execFileSync(process.execPath, ['scripts/ticket.mjs', '--case', caseId, '--role', 'panel', '--json'], {
    cwd: root,
    env: { ...process.env, DATA_DIR: server.dataDir, PORT: new URL(server.url).port },
    encoding: 'utf8',
  })
  const { params, participant } = JSON.parse(ticket) as { params: { ticket: string }; participant: string }
  return {
    name: 'ours',
    pid: server.pid ?? 0,
    address: `${server.syncUrl}/floor.${caseId}?ticket=${encodeURIComponent(params.ticket)}`,
    participant,
    stop: () => server.stop(),
  }
}

export const startReference = (): Promise<Contestant> => startScript('reference', 'reference-server.mjs')
export const startRelay = (): Promise<Contestant> => startScript('relay', 'relay-server.mjs')

async function startScript(name: string, file: string): Promise<Contestant> {
  if (!existsSync(`${referenceFolder}node_modules`))
    execFileSync('npm', ['ci', '--silent', '--omit=optional'], { cwd: referenceFolder, stdio: 'inherit' })
  const child = spawn(process.execPath, [file], { cwd: referenceFolder, stdio: ['ignore', 'pipe', 'ignore'] })
  const port = await firstLine(child)
  return {
    name,
    pid: child.pid ?? 0,
    address: `ws://127.0.0.1:${port}/bench`,
    participant: 'bench',
    stop: async () => {
      const ended = new Promise((resolve) => child.once('exit', resolve))
      child.kill('SIGKILL')
      await ended
    },
  }
}

function firstLine(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    child.once('exit', (code) => reject(new Error(`ended with ${code}`)))
    child.stdout?.once('data', (chunk: Buffer) => resolve(String(chunk).trim()))
  })
}

/** Memory that the process holds, MiB. */
export function residentMiB(pid: number): number {
  const line = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))
  return Math.round(Number(line?.[1]) / 1024)
}
