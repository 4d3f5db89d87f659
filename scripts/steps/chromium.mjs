import { access, constants } from 'node:fs/promises'
import { delimiter, join } from 'node:path'
import { installed, run } from './run.mjs'

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']

const isExecutable = (path) =>
  access(path, constants.X_OK).then(
    () => true,
    () => false,
  )

/** A Chromium that is there: CHROMIUM_PATH, one on the PATH, or one that the browser tool downloaded before. */
export async function findChromium() {
  const candidates = [
    process.env.CHROMIUM_PATH,
    ...(process.env.PATH ?? '').split(delimiter).flatMap((folder) => names.map((name) => join(folder, name))),
    await downloadedPath(),
  ]
  for (const candidate of candidates) if (candidate && (await isExecutable(candidate))) return candidate
  return undefined
}

const downloadedPath = async () => (await import('playwright-core')).chromium.executablePath()

/** Finds a Chromium or installs one: Debian's package where that is possible, else the browser tool's download. */
export async function ensureChromium() {
  const present = await findChromium()
  if (present !== undefined) return present
  console.log('Installing Chromium for the browser tests ...')
  for (const install of [installFromDebian, downloadWithTool]) {
    await install()
    const found = await findChromium()
    if (found !== undefined) return found
  }
  throw new Error('No Chromium could be installed. Install one and name it in CHROMIUM_PATH.')
}

async function installFromDebian() {
  const isDebian = await isExecutable('/usr/bin/apt-get')
  if (!isDebian || process.getuid?.() !== 0) return
  const env = { DEBIAN_FRONTEND: 'noninteractive' }
  await run(['apt-get', 'update', '-qq'], { env, output: 'errors' })
  await run(['apt-get', 'install', '-y', '-qq', '--no-install-recommends', 'chromium'], { env, output: 'errors' })
}

const downloadWithTool = () => run([...installed('playwright-core/cli.js'), 'install', '--with-deps', 'chromium'])
