import { execFile } from 'node:child_process'
import { delimiter, join } from 'node:path'
import { promisify } from 'node:util'
import { documentName } from '../../lib/board/documents.ts'
import { raiseQuestion } from '../../lib/board/edits/floor.ts'
import { root } from '../../scripts/steps/run.mjs'
import { type Program, startServer, type TestServer } from '../support/start-server.ts'
import { StubbornClient } from '../support/stubborn-client.ts'
import { makeTemporaryFolder, removeFolder } from '../support/temporary-folder.ts'
import { writeResults } from './results.ts'

/**
 * A smoke run on other lines of Node than the one that `npm test` runs on: what is committed is cloned, installed and built
 * with each (from the registry's package of that Node, which brings the headers for SQLite), started, written to, killed
 * and started again. Run: npx tsx tests/bench/other-node.ts, with NODE_LINES for other lines than these.
 */
const lines = (process.env.NODE_LINES ?? '24 26').split(' ')

const run = promisify(execFile)
const rows: string[] = []
const verdicts: { readonly what: string; readonly value: number; readonly most: number }[] = []
for (const line of lines) {
  const folder = await makeTemporaryFolder()
  const outcome = await smoke(line, folder).catch((error: Error) => ({ version: line, failure: reasonOf(error) }))
  await removeFolder(folder)
  const said = outcome.failure ?? 'installed, built, started, written to, killed, started again: the question was there'
  rows.push(`| ${outcome.version} | ${said} |`)
  verdicts.push({ what: `failures on Node ${line}`, value: outcome.failure === undefined ? 0 : 1, most: 0 })
  console.log(rows.at(-1))
}
await writeResults(
  'other-node',
  'Other lines of Node',
  ['| Node | what came of it |', '| --- | --- |', ...rows].join('\n'),
  verdicts,
)

async function smoke(line: string, folder: string): Promise<{ readonly version: string; readonly failure?: string }> {
  const { node, headers } = await nodeOf(line, join(folder, 'node'))
  const program = join(folder, 'program')
  await run('git', ['clone', '--quiet', root, program])
  // What runs in between (npm, the compiler's front end, Next) has to be this Node as well, and build for its headers.
  const path = `${join(headers, 'bin')}${delimiter}${process.env.PATH ?? ''}`
  const env = {
    ...process.env,
    PATH: path,
    npm_config_nodedir: headers,
    npm_config_build_from_source: 'better-sqlite3',
  }
  const inProgram = { cwd: program, env, maxBuffer: 2 ** 26 }
  await run('npm', ['ci', '--no-audit', '--no-fund'], inProgram)
  await run(node, ['scripts/build.mjs'], inProgram)
  await tryOut({ node, folder: program })
  return { version: (await run(node, ['--version'])).stdout.trim() }
}

/** Downloads the newest Node of a line, with its headers. */
async function nodeOf(line: string, folder: string) {
  const name = `node-${process.platform}-${process.arch}`
  await run('npm', ['install', '--prefix', folder, '--no-save', `${name}@${line}`])
  const headers = join(folder, 'node_modules', name)
  return { node: join(headers, 'bin', 'node'), headers }
}

async function tryOut(program: Program): Promise<void> {
  const server = await startServer({ demo: true, program })
  try {
    const caseId = await server.createCase('Smoke')
    const { cookie, participant } = await server.join('panel', 'Panel Plover')
    const page = await fetch(`${server.url}/case/${caseId}`, { headers: { cookie } })
    if (page.status !== 200) throw new Error(`the page of a case was answered with ${page.status}`)
    const client = new StubbornClient()
    await client.connect(floorOf(server, caseId), { cookie, origin: server.url })
    const pen = { participant: participant.id, now: () => new Date(), newId: () => 'smoke' }
    client.edit('asked', (doc) => raiseQuestion(doc, pen, { text: 'Is it mobile?' }))
    await client.settled()
    if (!client.stored.has('asked')) throw new Error(`the question was not stored: ${client.refused.join()}`)
    client.close()
    await server.kill9()
    await server.start()
    const reader = new StubbornClient()
    await reader.connect(floorOf(server, caseId), { cookie, origin: server.url })
    if (!reader.doc.getMap('questions').has('smoke')) throw new Error('the question was lost in the kill')
    reader.close()
  } finally {
    await server.stop()
  }
}

function floorOf(server: TestServer, caseId: string): string {
  return `${server.syncUrl}/${documentName('floor', caseId)}?own=1`
}

/** In one cell of a table. */
function reasonOf(error: Error): string {
  console.error(error)
  return error.message.split('\n').slice(0, 2).join(' ').replaceAll('|', '/')
}
