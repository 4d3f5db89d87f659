import { execFile } from 'node:child_process'
import { cp } from 'node:fs/promises'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type * as Y from 'yjs'
import { annotate } from '../../lib/board/edits/hearing.ts'
import { readTable } from '../../lib/board/reading.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { root } from '../../scripts/steps/run.mjs'
import { LightClient } from '../support/light-client.ts'
import { startServer, TestServer } from '../support/start-server.ts'
import { StubbornClient } from '../support/stubborn-client.ts'
import { makeTemporaryFolder, removeFolder } from '../support/temporary-folder.ts'

const run = promisify(execFile)
let server: TestServer
let folder: string
beforeAll(async () => {
  server = await startServer()
  folder = await makeTemporaryFolder()
}, 600_000)
afterAll(async () => {
  await server.stop()
  await removeFolder(folder)
})

const command = (name: string, args: string[], dataDir: string) =>
  run(process.execPath, [`dist/${name}.mjs`, ...args], { cwd: root, env: { ...process.env, DATA_DIR: dataDir } })

it('is made while somebody writes, holds all that was stored before it, and starts as a board of its own', async () => {
  const document = `record.${await server.createCase('Backup')}`
  const team = await server.join('team', 'Team')
  const headers = { cookie: team.cookie, origin: server.url }
  const writer = new StubbornClient()
  await writer.connect(`${server.syncUrl}/${document}?own=1`, headers)
  let made = 0
  const write = () => {
    const text = `pin-${++made}`
    writer.edit(text, (doc: Y.Doc) => {
      const pen = { participant: team.participant.id, now: () => new Date(), newId: () => text }
      annotate(doc, pen, { place: { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) }, text })
    })
  }
  const writing = setInterval(write, 5)
  await writer.until(() => writer.stored.size >= 20)
  const before = [...writer.stored]
  const backup = join(folder, 'backup')
  const { stdout } = await command('backup', [backup], server.dataDir)
  expect(stdout).toMatch(/read back and whole/)
  clearInterval(writing)
  await writer.settled()
  expect(writer.stored.size).toBeGreaterThan(before.length)
  writer.close()
  expect((await command('check-store', [backup], server.dataDir)).stdout).toMatch(/is whole\.$/m)

  // Sessions stay valid: the key came along.
  const restored = join(folder, 'restored')
  await cp(backup, restored, { recursive: true })
  const second = new TestServer({ DEMO: '0' }, restored)
  await second.start(0)
  const reader = await LightClient.join(`${second.syncUrl}/${document}?own=1`, {
    headers: { cookie: team.cookie, origin: second.url },
  })
  const there = readTable(reader.doc, 'annotations').map(({ text }) => text)
  for (const text of before) expect(there).toContain(text)
  reader.close()
  await second.terminate()
})

it('never overwrites a folder that is there', async () => {
  await expect(command('backup', [folder], server.dataDir)).rejects.toMatchObject({
    stderr: expect.stringMatching(/is there already or cannot be made; give a new folder\.\n$/),
  })
})
