import { mkdir, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { checkLicences, isAllowed } from '../../../scripts/steps/licences.mjs'
import { root } from '../../../scripts/steps/run.mjs'
import { makeTemporaryFolder, removeFolder } from '../../support/temporary-folder.ts'

// Expressions as SPDX 2.3, annex D, combines them (number of the annex from memory).
it.each([
  ['MIT', true],
  ['(MIT OR WTFPL)', true],
  ['GPL-3.0-only OR (MIT AND ISC)', true],
  ['Apache-2.0 AND BSL-1.0', true],
  ['GPL-3.0-only', false],
  ['MIT AND GPL-3.0-only', false],
  ['MIT OR ISC AND GPL-3.0-only', true],
  ['(MIT OR ISC) AND GPL-3.0-only', false],
  ['(MIT', false],
  ['MIT ISC', false],
  ['SEE LICENSE IN LICENSE.txt', false],
  ['UNLICENSED', false],
  ['', false],
])('the expression "%s" can be kept: %s', (expression, expected) => {
  expect(isAllowed(expression)).toBe(expected)
})

describe('an installation', () => {
  let folder: string
  beforeEach(async () => {
    folder = await makeTemporaryFolder()
  })
  afterEach(() => removeFolder(folder))

  const write = async (path: string, content: unknown) => {
    await mkdir(dirname(join(folder, path)), { recursive: true })
    await writeFile(join(folder, path), JSON.stringify(content))
  }

  it('is complained about by the package, its licence, or that it names none or is not there', async () => {
    await write('package-lock.json', {
      packages: {
        '': {},
        'node_modules/good': {},
        'node_modules/bad': {},
        'node_modules/silent': {},
        'node_modules/gone': {},
        'node_modules/other-platform': { optional: true },
        'node_modules/tool': { dev: true },
      },
    })
    await write('node_modules/good/package.json', { license: 'MIT' })
    await write('node_modules/bad/package.json', { license: 'AGPL-3.0-only' })
    await write('node_modules/silent/package.json', {})
    await write('node_modules/tool/package.json', { license: 'GPL-3.0-only' })
    expect(await checkLicences(folder)).toEqual({
      checked: 4,
      complaints: [
        'node_modules/bad is under AGPL-3.0-only',
        'node_modules/silent names no licence',
        'node_modules/gone is not installed',
      ],
    })
  })

  it('of ours has nothing to complain about', async () => {
    const { checked, complaints } = await checkLicences(root)
    expect(complaints).toEqual([])
    expect(checked).toBeGreaterThan(100)
  })
})
