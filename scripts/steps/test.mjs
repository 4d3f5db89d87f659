import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ensureBuilt } from './build.mjs'
import { ensureChromium } from './chromium.mjs'
import { ensureDeployPrograms } from './deploy-programs.mjs'
import { ensureInstalled } from './install.mjs'
import { checkLicences } from './licences.mjs'
import { ensurePostgres } from './postgres.mjs'
import { installed, root, run } from './run.mjs'

const one = (name, ok) => {
  console.log(`${ok ? 'passed' : 'FAILED'}: ${name}`)
  return { passed: ok ? 1 : 0, failed: ok ? 0 : 1 }
}

async function lint() {
  return one('lint', (await run([...installed('@biomejs/biome/bin/biome'), 'check', '.'])) === 0)
}

async function types() {
  // Pages that were deleted stand in the generated types until they are made anew.
  const generated = await run([...installed('next/dist/bin/next'), 'typegen'], { output: 'errors' })
  return one('types', generated === 0 && (await run([...installed('typescript/bin/tsc'), '--noEmit'])) === 0)
}

/** Runs the tests (all, or those named on the command line) and counts them from the runner's own report. */
async function tests(chromium) {
  const folder = await mkdtemp(join(tmpdir(), 'promontory-test-'))
  const report = join(folder, 'report.json')
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`]
  const code = await run([...installed('vitest/vitest.mjs'), 'run', ...reporters, ...process.argv.slice(2)], {
    env: { CHROMIUM_PATH: chromium },
  })
  const counted = count(await readFile(report, 'utf8').catch(() => undefined))
  await rm(folder, { recursive: true, force: true })
  // An error outside any test fails the run without failing a test.
  return code !== 0 && counted.failed === 0 ? { ...counted, failed: 1 } : counted
}

async function licences() {
  const { checked, complaints } = await checkLicences(root)
  for (const complaint of complaints) console.log(complaint)
  return one(`licences of ${checked} packages`, complaints.length === 0)
}

/** The page of published values is that of a whole run, so a run of named tests leaves it alone. */
async function publishedPage() {
  return one('published values', (await run([process.execPath, 'scripts/published-report.mjs', '--check'])) === 0)
}

function count(report) {
  if (report === undefined) return { passed: 0, failed: 1 }
  const { numPassedTests, numFailedTests, numPendingTests, testResults } = JSON.parse(report)
  const unreadable = testResults.filter(
    ({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0,
  )
  // A skipped test tells nothing, so it does not pass.
  return { passed: numPassedTests, failed: numFailedTests + numPendingTests + unreadable.length }
}

const isWholeRun = process.argv.length === 2
await ensureInstalled()
if (isWholeRun) await rm(join(root, 'coverage', 'published'), { recursive: true, force: true })
const chromium = await ensureChromium()
await ensurePostgres()
await ensureDeployPrograms()
await ensureBuilt()
const results = [await lint(), await types(), await licences(), await tests(chromium)]
if (isWholeRun) results.push(await publishedPage())
const total = (key) => results.reduce((sum, result) => sum + result[key], 0)
console.log(`${total('passed')} passed, ${total('failed')} failed`)
process.exitCode = total('failed') === 0 ? 0 : 1
