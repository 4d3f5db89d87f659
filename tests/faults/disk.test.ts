import { execFile } from 'node:child_process'
import { chmod, mkdir, readFile, stat, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import * as Y from 'yjs'
import { annotate } from '../../lib/board/edits/hearing.ts'
import { readTable } from '../../lib/board/reading.ts'
import { closeCode } from '../../lib/board/wire.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { root } from '../../scripts/steps/run.mjs'
import { dataFiles } from '../../server/data-folder.ts'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'
import { LightClient } from '../support/light-client.ts'
import { startServer, TestServer, type Visitor } from '../support/start-server.ts'
import { StubbornClient } from '../support/stubborn-client.ts'
import { makeTemporaryFolder, removeFolder } from '../support/temporary-folder.ts'
import { limitFileBytes } from '../support/write-limit.ts'

let made = 0
const pin = (doc: Y.Doc, { participant }: Visitor, text: string) =>
  annotate(
    doc,
    { participant: participant.id, now: () => new Date(), newId: () => `pin-${++made}` },
    { place: { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) }, text },
  )
const pins = (doc: Y.Doc): string[] =>
  readTable(doc, 'annotations')
    .map(({ text }) => text)
    .sort()

/** Runs one of the commands on a data folder. */
async function command(name: string, dataDir: string, ...args: string[]) {
  const env = { ...process.env, NODE_ENV: 'production' as const, DATA_DIR: dataDir }
  return promisify(execFile)(process.execPath, [join(root, 'dist', `${name}.mjs`), ...args], { cwd: root, env }).then(
    ({ stdout, stderr }) => ({ code: 0, stdout, stderr }),
    ({ code, stdout, stderr }: { code: number; stdout: string; stderr: string }) => ({ code, stdout, stderr }),
  )
}

describe('a disk that takes nothing more', () => {
  let server: TestServer
  let people: Visitor[]
  beforeAll(async () => {
    server = await startServer()
    people = await Promise.all([server.join('team', 'Anna'), server.join('team', 'Bo')])
  }, 600_000)
  afterAll(() => server.stop())

  const connect = (client: StubbornClient, caseId: string, { cookie }: Visitor) =>
    client.connect(`${server.syncUrl}/record.${caseId}?own=1`, { cookie, origin: server.url })

  async function isReady(): Promise<void> {
    await vi.waitFor(async () => expect((await server.get('/readyz')).status).toBe(200), { timeout: 20_000 })
  }

  it.each([
    ['is full', async () => (await stat(`${dataFiles(server.dataDir).store}-wal`)).size],
    ['has become read-only', async () => 0],
  ])('because it %s: nothing is called stored or shown, all hear why, and it goes on by itself', async (_, limit) => {
    const caseId = await server.createCase('Full')
    const clients = people.map(() => new StubbornClient())
    const [writer, reader] = clients as [StubbornClient, StubbornClient]
    const [anna, bo] = people as [Visitor, Visitor]
    await Promise.all([connect(writer, caseId, anna), connect(reader, caseId, bo)])
    writer.edit('before', (doc) => pin(doc, anna, 'before'))
    await Promise.all([writer.settled(), reader.until(() => pins(reader.doc).includes('before'))])

    await limitFileBytes(server.pid, await limit())
    const names = Array.from({ length: 40 }, (_, number) => `during ${number} ${'x'.repeat(200)}`)
    for (const name of names) writer.edit(name, (doc) => pin(doc, anna, name))
    await vi.waitFor(() => expect([writer.isOpen, reader.isOpen]).toEqual([false, false]), { timeout: 20_000 })
    const shown = pins(reader.doc)
    expect([...writer.stored].sort()).toEqual(expect.arrayContaining(shown))
    expect(writer.stored.size).toBeLessThan(names.length)
    const turnedAway = new LightClient(`${server.syncUrl}/record.${caseId}?own=1`, { headers: { cookie: bo.cookie } })
    expect((await turnedAway.closed()).code).toBe(closeCode.notStored)
    expect([(await server.get('/healthz')).status, (await server.get('/readyz')).status]).toEqual([200, 503])
    expect(server.errors).toContain('"event":"store-outage"')

    await limitFileBytes(server.pid, 'unlimited')
    await isReady()
    expect(server.errors).toContain('"event":"store-back"')
    await Promise.all([connect(writer, caseId, anna), connect(reader, caseId, bo)])
    await writer.settled()
    expect(writer.refused).toEqual([])
    await reader.until(() => pins(reader.doc).length === names.length + 1)
    await server.kill9()
    await server.start()
    const later = new StubbornClient()
    await connect(later, caseId, bo)
    expect(pins(later.doc)).toEqual(['before', ...names].sort())
    for (const client of [...clients, later]) client.close()
  })

  it('is told in one line by a server that is to start on it', async () => {
    const folder = await makeTemporaryFolder()
    const readOnly = join(folder, 'data')
    await mkdir(readOnly)
    const undo = await makeReadOnly(readOnly)
    try {
      const { code, stdout, stderr } = await command('server', readOnly)
      expect({ code, stdout }).toEqual({ code: 1, stdout: '' })
      expect(stderr).toMatch(/^DATA_DIR \S+ cannot be made or written \(E\w+\); .*\n$/)
    } finally {
      await undo()
      await removeFolder(folder)
    }
  })
})

/** Root writes whatever the mode says, so for root it is a mount. */
async function makeReadOnly(folder: string): Promise<() => Promise<unknown>> {
  const run = promisify(execFile)
  if (process.getuid?.() !== 0) {
    await chmod(folder, 0o500)
    return () => chmod(folder, 0o700)
  }
  await run('mount', ['-t', 'tmpfs', '-o', 'ro,size=64k', 'tmpfs', folder])
  return () => run('umount', [folder])
}

describe('a database that is damaged', () => {
  let server: TestServer
  let folder: string
  let anna: Visitor
  let caseId: string
  const copies = () => dataFiles(folder)

  /** A board of which the last part stands in the log alone, killed and copied. */
  beforeAll(async () => {
    server = await startServer()
    anna = await server.join('team', 'Anna')
    caseId = await server.createCase('Damaged')
    const writer = await LightClient.join(`${server.syncUrl}/record.${caseId}?own=1`, {
      headers: { cookie: anna.cookie },
    })
    for (let number = 0; number < 60; number++)
      expect(await writer.attempt((doc) => pin(doc, anna, `pin ${number}`))).toBe('stored')
    writer.close()
    await server.kill9()
  }, 600_000)
  afterAll(() => server.stop())

  beforeEach(async () => {
    folder = await makeTemporaryFolder()
    const [from, to] = [dataFiles(server.dataDir), copies()]
    for (const [there, here] of [
      [from.store, to.store],
      [`${from.store}-wal`, `${to.store}-wal`],
      [from.key, to.key],
    ] as const)
      await writeFile(here, await readFile(there), { mode: 0o600 })
  })
  afterEach(() => removeFolder(folder))

  async function flip(file: string, at: (bytes: Buffer) => number, length = 8): Promise<void> {
    const bytes = await readFile(file)
    const start = at(bytes)
    for (let index = start; index < start + length; index++) bytes[index] = (bytes[index] ?? 0) ^ 0xff
    await writeFile(file, bytes)
  }

  async function pinsLeft(dataDir: string): Promise<string[]> {
    const store = await openSqliteStore(dataFiles(dataDir).store)
    const { snapshot, updates } = await store.load(`record.${caseId}`)
    await store.close()
    const doc = new Y.Doc()
    for (const bytes of [...(snapshot === null ? [] : [snapshot.state]), ...updates.map(({ update }) => update)])
      Y.applyUpdate(doc, bytes)
    return pins(doc)
  }

  it('in the middle of its log is not opened, in one line; what is left can be copied', async () => {
    await flip(`${copies().store}-wal`, ({ length }) => Math.floor(length / 2))
    const before = await readFile(`${copies().store}-wal`)
    const { code, stdout, stderr } = await command('server', folder)
    expect({ code, stdout }).toEqual({ code: 1, stdout: '' })
    expect(stderr).toMatch(/^\S+-wal is damaged at frame \d+: \d+ commits .*check-store.*backup.*\n$/)
    const checked = await command('check-store', folder)
    expect([checked.code, checked.stdout]).toEqual([1, expect.stringMatching(/-wal is damaged at frame \d+/)])
    // Looking has not made it worse.
    expect((await readFile(`${copies().store}-wal`)).equals(before)).toBe(true)
    const rescue = join(folder, 'rescue')
    expect((await command('backup', folder, rescue)).code).toBe(0)
    const left = await pinsLeft(rescue)
    expect(left.length).toBeGreaterThan(5)
    expect(left.length).toBeLessThan(60)
  })

  it('at the head of its log is not opened either', async () => {
    await flip(`${copies().store}-wal`, () => 16)
    const { code, stderr } = await command('server', folder)
    expect([code, stderr]).toEqual([1, expect.stringMatching(/^\S+-wal is damaged at frame 0: .*\n$/)])
  })

  it('by an end that was half written when the computer died is whole: nothing that was stored is behind it', async () => {
    const log = `${copies().store}-wal`
    const bytes = await readFile(log)
    const frame = bytes.subarray(32, 32 + 24 + 4096)
    // Two frames of a commit that never came to its end, the second one torn.
    await writeFile(log, Buffer.concat([bytes, frame, frame.subarray(0, 2000)]))
    expect((await command('check-store', folder)).stdout).toMatch(/is whole/)
    expect(await pinsLeft(folder)).toHaveLength(60)
  })

  it('in a page of its file is not opened, in one line, and check-store finds it', async () => {
    await pinsLeft(folder) // closing it puts the log into the file
    await flip(copies().store, () => 5 * 4096, 64)
    const { code, stdout, stderr } = await command('server', folder)
    expect({ code, stdout }).toEqual({ code: 1, stdout: '' })
    expect(stderr).toMatch(/^\S+\.db is damaged: .*check-store.*backup.*\n$/)
    const checked = await command('check-store', folder)
    expect([checked.code, checked.stdout + checked.stderr]).toEqual([
      1,
      expect.stringMatching(/page|malformed|damaged/),
    ])
    expect((await command('backup', folder, join(folder, 'rescue'))).code).toBe(1)
  })

  it('in the words of one update keeps that document closed, says so, and check-store names it', async () => {
    await pinsLeft(folder)
    await flip(copies().store, (bytes) => bytes.indexOf('pin 30') - 12, 6)
    const checked = await command('check-store', folder)
    expect([checked.code, checked.stdout]).toEqual([1, expect.stringContaining(`record.${caseId}`)])
    const damaged = new TestServer({ DEMO: '0' }, folder)
    await damaged.start(0)
    try {
      const options = { headers: { cookie: anna.cookie } }
      const record = new LightClient(`${damaged.syncUrl}/record.${caseId}?own=1`, options)
      expect((await record.closed()).code).toBe(closeCode.notStored)
      expect(damaged.errors).toContain(`record.${caseId} is stored, but cannot be read: run \\"npm run check-store`)
      // Everything else of the board goes on.
      ;(await LightClient.join(`${damaged.syncUrl}/floor.${caseId}?own=1`, options)).close()
    } finally {
      await damaged.terminate()
    }
  })
})
