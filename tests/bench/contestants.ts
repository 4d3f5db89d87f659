import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import * as encoding from 'lib0/encoding'
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
  readonly framing: Framing
  stop(): Promise<void>
}

/** How a server wants the frames of y-protocols: as they are, or each behind the name of its document. */
export interface Framing {
  /** what a connection says first */
  readonly hello: readonly Uint8Array[]
  wrap(frame: Uint8Array): Uint8Array
}

const bare: Framing = { hello: [], wrap: (frame) => frame }

/** Hocuspocus: the name first, and an empty token before anything else. */
const named: Framing = {
  hello: [
    behindName((encoder) => {
      encoding.writeVarUint(encoder, 2)
      encoding.writeVarUint(encoder, 0)
      encoding.writeVarString(encoder, '')
      encoding.writeVarString(encoder, '4')
    }),
  ],
  wrap: (frame) => behindName((encoder) => encoding.writeUint8Array(encoder, frame)),
}

function behindName(write: (encoder: encoding.Encoder) => void): Uint8Array {
  const encoder = encoding.createEncoder()
  encoding.writeVarString(encoder, 'bench')
  write(encoder)
  return encoding.toUint8Array(encoder)
}

const referenceFolder = fileURLToPath(new URL('reference/', import.meta.url))

/** Ours as it is run: built, with guard and durable SQLite, entered with a ticket for the team: what the panel writes is paced (R9). */
export async function startOurs(): Promise<Contestant> {
  const server: TestServer = await startServer()
  const caseId = await server.createCase('Bench')
  const ticket = execFileSync(
    process.execPath,
    ['scripts/ticket.mjs', '--case', caseId, '--role', 'team', '--name', 'Bench', '--json'],
    {
      cwd: root,
      env: { ...process.env, DATA_DIR: server.dataDir, PORT: new URL(server.url).port },
      encoding: 'utf8',
    },
  )
  const { params, participant } = JSON.parse(ticket) as { params: { ticket: string }; participant: string }
  return {
    name: 'ours',
    pid: server.pid ?? 0,
    address: `${server.syncUrl}/floor.${caseId}?ticket=${encodeURIComponent(params.ticket)}`,
    participant,
    framing: bare,
    stop: () => server.stop(),
  }
}

export const startReference = (): Promise<Contestant> => startScript('reference', 'reference-server.mjs', bare)
export const startRelay = (): Promise<Contestant> => startScript('relay', 'relay-server.mjs', bare)
export const startHocuspocus = (): Promise<Contestant> => startScript('hocuspocus', 'hocuspocus-server.mjs', named)

async function startScript(name: string, file: string, framing: Framing): Promise<Contestant> {
  if (!existsSync(`${referenceFolder}node_modules/@hocuspocus`))
    execFileSync('npm', ['ci', '--silent'], { cwd: referenceFolder, stdio: 'inherit' })
  const child = spawn(process.execPath, [file], { cwd: referenceFolder, stdio: ['ignore', 'pipe', 'ignore'] })
  const port = await firstLine(child)
  return {
    name,
    pid: child.pid ?? 0,
    address: `ws://127.0.0.1:${port}/bench`,
    participant: 'bench',
    framing,
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
