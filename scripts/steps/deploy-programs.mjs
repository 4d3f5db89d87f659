import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'
import { run } from './run.mjs'

/** Folders of programs for administrators are not on everybody's PATH. */
const folders = [...(process.env.PATH ?? '').split(delimiter), '/usr/sbin', '/usr/bin']

/** The path of an installed program, or undefined. */
export function findProgram(name) {
  return folders
    .map((folder) => join(folder, name))
    .find((path) => {
      try {
        accessSync(path, constants.X_OK)
        return true
      } catch {
        return false
      }
    })
}

/** What of the deployment examples can be tried on this computer: tests/deploy. */
export const deployTests = () => [
  ...(findProgram('nginx') && findProgram('openssl') ? ['proxy'] : []),
  ...(findProgram('systemd-analyze') ? ['service'] : []),
]

/** Installs Debian's proxy for the tests where it can, and says what will not be tried. */
export async function ensureDeployPrograms() {
  if (findProgram('nginx') === undefined && process.getuid?.() === 0 && findProgram('apt-get') !== undefined) {
    const env = { DEBIAN_FRONTEND: 'noninteractive' }
    await run(['apt-get', 'install', '-y', '-qq', '--no-install-recommends', 'nginx-light'], { env, output: 'none' })
  }
  for (const name of ['nginx', 'openssl', 'systemd-analyze'])
    if (findProgram(name) === undefined)
      console.log(`No ${name} here: what deploy/ says to it is only held against the server's own settings.`)
}
