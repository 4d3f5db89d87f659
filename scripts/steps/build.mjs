import { mkdir, open, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { setTimeout as delay } from 'node:timers/promises'
import { fingerprint } from './fingerprint.mjs'
import { ensureInstalled } from './install.mjs'
import { bundlePageSchemas } from './page-schemas.mjs'
import { installed, mustRun, root } from './run.mjs'

const always = ['lib', 'package.json', 'package-lock.json', 'tsconfig.json', 'scripts/steps/build.mjs']
const bundlerSettings = ['next.config.ts', 'scripts/buffer-of-the-host.cjs', 'scripts/steps/page-schemas.mjs']
const pagesFolder = process.env.NEXT_DIST_DIR ?? '.next'
const serverFolder = 'dist'

/** What is built, each with where to, what from and how. The stamp lies in the folder, so it goes when that goes. */
const parts = [
  { folder: pagesFolder, sources: ['app', 'public', ...bundlerSettings, ...always], make: buildPages },
  { folder: serverFolder, sources: ['server', ...always], make: bundleServer },
]
/** What is bundled for Node: the server, the threads for its database and for archives, and the commands beside it. */
const entries = {
  server: 'server/main.ts',
  'sqlite-worker': 'server/store/sqlite/worker.ts',
  'archive-worker': 'server/exchange/archive-worker.ts',
  ticket: 'server/admin/ticket.ts',
  backup: 'server/admin/backup.ts',
  'check-store': 'server/admin/check-store.ts',
  'move-store': 'server/admin/move-store.ts',
}
const lockFile = join(root, '.stamp', 'build.lock')
const lockPollMs = 500

const stampFile = ({ folder }) => join(root, folder, 'built-from')

/** Builds what was built from other sources than stand there now. */
export async function ensureBuilt() {
  if ((await staleParts()).length === 0) return
  await withBuildLock(async () => {
    // Another process may have built the same while this one waited.
    for (const part of await staleParts()) await buildPart(part)
  })
}

export async function build() {
  await ensureInstalled()
  await withBuildLock(async () => {
    for (const part of parts) await buildPart(part)
  })
}

async function staleParts() {
  const current = await Promise.all(parts.map(isCurrent))
  return parts.filter((_, index) => !current[index])
}

async function isCurrent(part) {
  const stamp = await readFile(stampFile(part), 'utf8').catch(() => '')
  return stamp !== '' && stamp === (await fingerprint(part.sources))
}

async function buildPart(part) {
  console.log(`Building ${part.folder} ...`)
  const builtFrom = await fingerprint(part.sources)
  await rm(stampFile(part), { force: true })
  await part.make()
  await writeFile(stampFile(part), builtFrom)
}

async function buildPages() {
  await bundlePageSchemas()
  await mustRun([...installed('next/dist/bin/next'), 'build'], 'Building the pages failed; see above.', {
    env: { NODE_ENV: 'production' },
  })
}

async function bundleServer() {
  const { build: bundle } = await import('esbuild')
  await bundle({
    absWorkingDir: root,
    entryPoints: entries,
    outdir: serverFolder,
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
  try {
    await work()
  } finally {
    await rm(lockFile, { force: true })
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

/** Its holder is gone: a build that was killed, or ended with a failed step without letting go. */
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
