import { access, constants, readdir } from 'node:fs/promises'
import { delimiter, join } from 'node:path'
import { run } from './run.mjs'

/** Where Debian and its like keep the programs of each version. */
const versionsFolder = '/usr/lib/postgresql'

const isExecutable = (path) =>
  access(path, constants.X_OK).then(
    () => true,
    () => false,
  )

/** The folder with PostgreSQL's server programs: POSTGRES_BIN, the newest version installed, or one on the PATH. */
export async function findPostgres() {
  const versions = await readdir(versionsFolder).catch(() => [])
  const newestFirst = versions.sort((a, b) => Number(b) - Number(a))
  const candidates = [
    process.env.POSTGRES_BIN,
    ...newestFirst.map((version) => join(versionsFolder, version, 'bin')),
    ...(process.env.PATH ?? '').split(delimiter),
  ]
  for (const folder of candidates)
    if (folder && (await isExecutable(join(folder, 'postgres'))) && (await isExecutable(join(folder, 'initdb'))))
      return folder
  return undefined
}

/** Finds PostgreSQL for the tests or installs Debian's package. */
export async function ensurePostgres() {
  if ((await findPostgres()) !== undefined) return
  console.log('Installing PostgreSQL for the tests ...')
  if (process.getuid?.() === 0 && (await isExecutable('/usr/bin/apt-get'))) {
    const env = { DEBIAN_FRONTEND: 'noninteractive' }
    await run(['apt-get', 'update', '-qq'], { env, output: 'errors' })
    await run(['apt-get', 'install', '-y', '-qq', '--no-install-recommends', 'postgresql'], { env, output: 'errors' })
  }
  if ((await findPostgres()) === undefined)
    throw new Error('No PostgreSQL could be installed. Install it and name the folder of its programs in POSTGRES_BIN.')
}

/** Whom PostgreSQL's programs run as: root they refuse, so the user "nobody" does it then. */
export const unprivileged = () => (process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {})
