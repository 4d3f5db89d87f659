import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { root } from '../../../scripts/steps/run.mjs'
import { settingRows } from '../../../server/settings.ts'

/** WRITE_README=1 npx vitest run tests/unit/settings/readme.test.ts writes the table of settings anew. */
const page = join(root, 'README.md')
const [from, to] = ['<!-- settings -->\n', '<!-- end of settings -->']

/** A table as the formatter pads it. */
function table(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)))
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join(' | ')} |\n`
  const [head = [], ...body] = rows
  return [line(head), line(widths.map((width) => '-'.repeat(width))), ...body.map(line)].join('')
}

it('the table of settings in README.md is that of the schema', () => {
  const readme = readFileSync(page, 'utf8')
  const [start, end] = [readme.indexOf(from) + from.length, readme.indexOf(to)]
  const rows = settingRows().map(({ name, takes, standard, meaning }) => [`\`${name}\``, takes, standard, meaning])
  const wanted = `\n${table([['variable', 'takes', 'default', 'meaning'], ...rows])}\n`
  if (process.env.WRITE_README === '1') writeFileSync(page, readme.slice(0, start) + wanted + readme.slice(end))
  else expect(readme.slice(start, end)).toBe(wanted)
})
