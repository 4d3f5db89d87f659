import { mkdir, open, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { setTimeout as delay } from 'node:timers/promises'
import { fingerprint } from './fingerprint.mjs'
import { ensureInstalled } from './install.mjs'
import { installed, mustRun, root } from './run.mjs'

const sources = [
  'app',
  'lib',
  'server',
  'public',
  'package.json',
  'package-lock.json',
  'next.config.ts',
  'tsconfig.json',
  'scripts/steps/build.mjs',
]
/** What is bundled for Node: the server, the thread that it keeps its database in, and the commands beside it. */
const entries = {
  server: 'server/main.ts',
  'sqlite-worker': 'server/store/sqlite/worker.ts',
  ticket: 'server/admin/ticket.ts',
}
const pagesFolder = process.env.NEXT_DIST_DIR ?? '.next'
const stampFile = join(root, pagesFolder, 'built-from')
const lockFile = join(root, '.stamp', 'build.lock')
const lockPollMs = 500

/** Builds when what stands there was built from other sources. */
export async function ensureBuilt() {
  if (await isCurrent()) return
  await withBuildLock(async () => {
    // Another process may have built the same while this one waited.
    if (!(await isCurrent())) await buildNow()
  })
}

export async function build() {
  await ensureInstalled()
  await withBuildLock(buildNow)
}

async function isCurrent() {
  const stamp = await readFile(stampFile, 'utf8').catch(() => '')
  return stamp !== '' && stamp === (await fingerprint(sources))
}

async function buildNow() {
  console.error('Building ...')
  const builtFrom = await fingerprint(sources)
  await rm(stampFile, { force: true })
  await mustRun([...installed('next/dist/bin/next'), 'build'], 'Building the pages failed; see above.', {
    env: { NODE_ENV: 'production' },
  })
  await bundleServer()
  await writeFile(stampFile, builtFrom)
}

async function bundleServer() {
  const { build: bundle } = await import('esbuild')
  await bundle({
    absWorkingDir: root,
    entryPoints: entries,
    outdir: 'dist',
    outExtension: { '.js': '.mjs' },
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    sourcemap: true,
    logLevel: 'warning',
  })
}

async function withBuildLock(work) {
  await mkdir(join(root, '.stamp'), { recursive: true })
  while (!(await takeLock())) {
    if (await lockIsStale()) await rm(lockFile, { force: true })
    else await delay(lockPollMs)
  }
  // A failed step ends the process without unwinding.
  const release = () => rm(lockFile, { force: true })
  try {
    await work()
  } finally {
    await release()
  }
}

async function takeLock() {
  try {
    const file = await open(lockFile, 'wx')
    await file.write(String(process.pid))
    await file.close()
    return true
  } catch (error) {
    if (error.code === 'EEXIST') return false
    throw error
  }
}

/** Its holder is gone: a killed build, or one that ended by a failed step. */
async function lockIsStale() {
  const holder = Number(await readFile(lockFile, 'utf8').catch(() => '0'))
  if (!(holder > 0)) return false
  try {
    process.kill(holder, 0)
    return false
  } catch (error) {
    return error.code === 'ESRCH'
  }
}
