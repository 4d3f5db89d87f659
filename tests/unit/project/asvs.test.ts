import { access, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { root } from '../../../scripts/steps/run.mjs'

const page = await readFile(join(root, 'server/ASVS.md'), 'utf8')
const rows = page
  .split('\n')
  .filter((line) => /^\| \d/.test(line))
  .map((line) => line.split('|').map((cell) => cell.trim()))
const named = [...new Set([...page.matchAll(/`([\w./-]+\.(?:ts|tsx|mjs|md|json))`/g)].map(([, path = '']) => path))]

describe('the table of the ASVS', () => {
  it('names files that exist', async () => {
    const missing = await Promise.all(
      named.map((path) =>
        access(join(root, path)).then(
          () => undefined,
          () => path,
        ),
      ),
    )
    expect(named.length).toBeGreaterThan(50)
    expect(missing.filter((path) => path !== undefined)).toEqual([])
  })

  it('says of each requirement whether it is met, where, and by which test', () => {
    expect(rows.length).toBeGreaterThan(80)
    for (const [, number, asks, met, where, test] of rows) {
      expect([number, met]).toEqual([number, expect.stringMatching(/^(yes|partly|no|proxy)$/)])
      for (const cell of [asks, where, test]) expect([number, cell]).not.toEqual([number, ''])
      expect([number, test]).toEqual([number, expect.stringMatching(/^(none|`tests\/)/)])
    }
  })
})
