import { execFile } from 'node:child_process'
import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { findProgram } from '../../scripts/steps/deploy-programs.mjs'
import { root } from '../../scripts/steps/run.mjs'
import { makeTemporaryFolder, removeFolder } from '../support/temporary-folder.ts'

const analyze = (...args: string[]) => promisify(execFile)(findProgram('systemd-analyze') ?? '', args)

let folder: string
let unit: string
beforeAll(async () => {
  folder = await makeTemporaryFolder()
  unit = join(folder, 'promontory@3000.service')
  const text = await readFile(join(root, 'deploy', 'promontory@.service'), 'utf8')
  // Node lies elsewhere on a computer of developers; everything else stays as it is.
  await writeFile(unit, text.replaceAll('/usr/bin/node', process.execPath))
})
afterAll(() => removeFolder(folder))

it('the service unit is one that systemd takes without a word', async () => {
  expect(await analyze('verify', unit)).toEqual({ stdout: '', stderr: '' })
})

it('the service is confined: at most 2.0 of 10 on systemd’s own scale of exposure', async () => {
  const { stdout } = await analyze('security', '--offline=true', '--no-pager', '--threshold=20', unit)
  expect(Number(/Overall exposure level[^:]*: ([\d.]+)/.exec(stdout)?.[1])).toBeLessThanOrEqual(2)
})
