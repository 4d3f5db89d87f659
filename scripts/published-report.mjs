// Writes tests/published/README.md from what the last run of tests/published recorded in coverage/published.
// Usage: npx vitest run tests/published && node scripts/published-report.mjs
// With --check it fails when the page had to change, so that the one in the repository is always that of a run.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

const folder = join('coverage', 'published')
const target = join('tests', 'published', 'README.md')

if (!existsSync(folder)) {
  console.error(`Nothing recorded in ${folder}. Run "npx vitest run tests/published" first.`)
  process.exit(1)
}

const recordings = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => JSON.parse(readFileSync(join(folder, name), 'utf8')))
  .filter(({ testFile }) => existsSync(testFile)) // a recording may outlive its test

const inOrder = (a, b) => (a < b ? -1 : a > b ? 1 : 0)
const cell = (text) => text.replaceAll('|', '\\|')
/** What only the rounding of the machine decides is not printed: it may differ from one to the next. */
const noise = 1e-9
const twoDigits = (value) => (value === 0 ? '0' : value < noise ? '< 1e-9' : String(Number(value.toPrecision(2))))

/** One row for each source within a test file. */
function rowsOf({ testFile, checks }) {
  const sources = [...new Set(checks.map((check) => check.source))]
  return sources.map((source) => {
    const group = checks.filter((check) => check.source === source)
    return {
      source,
      testFile,
      values: group.reduce((sum, check) => sum + check.values, 0),
      error: Math.max(...group.map((check) => check.error)),
      tolerances: [...new Set(group.map((check) => `${check.tolerance} (${check.why})`))].sort(inOrder),
    }
  })
}

const rows = recordings.flatMap(rowsOf).sort((a, b) => inOrder(a.source, b.source) || inOrder(a.testFile, b.testFile))
const total = rows.reduce((sum, row) => sum + row.values, 0)

const lines = [
  '# Values checked against the outside world',
  '',
  'Made by `scripts/published-report.mjs` from a run of `tests/published`; do not edit by hand. Tolerances are absolute;',
  'names and decisions are compared exactly.',
  '',
  `${total} values from ${new Set(rows.map((row) => row.source)).size} sources.`,
  '',
  '| source | values | largest error | tolerance (reason) | test |',
  '| --- | --: | --: | --- | --- |',
  ...rows.map(
    (row) =>
      `| ${cell(row.source)} | ${row.values} | ${twoDigits(row.error)} | ${cell(row.tolerances.join('; '))} | \`${row.testFile}\` |`,
  ),
  '',
]
const page = lines.join('\n')
const isCurrent = existsSync(target) && readFileSync(target, 'utf8') === page
writeFileSync(target, page)
console.log(`${target}: ${total} values from ${rows.length} rows${isCurrent ? '' : ', written anew: commit it'}`)
if (!isCurrent && process.argv.includes('--check')) process.exitCode = 1
