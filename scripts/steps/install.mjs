import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { mustRun, root } from './run.mjs'

const packagesIn = async (file) => {
  try {
    return JSON.parse(await readFile(join(root, file), 'utf8')).packages
  } catch (error) {
    if (error.code === 'ENOENT') return {}
    throw error
  }
}

/** npm writes its own list last, so an installation that was interrupted is seen as missing. */
async function isInstalled() {
  const [wanted, present] = await Promise.all(['package-lock.json', 'node_modules/.package-lock.json'].map(packagesIn))
  return Object.entries(wanted).every(
    ([path, entry]) => path === '' || entry.optional || present[path]?.version === entry.version,
  )
}

/** Installs exactly what the lock file says, when something of it is missing. */
export async function ensureInstalled() {
  if (await isInstalled()) return
  console.log('Installing dependencies (a minute or two the first time) ...')
  await mustRun(
    ['npm', 'ci', '--no-audit', '--no-fund'],
    'Installing the dependencies failed; npm says why above. Without internet access to a prebuilt SQLite, python3, make and g++ are needed.',
  )
}
