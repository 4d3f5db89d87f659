import { ensureBuilt } from './build.mjs'
import { ensureInstalled } from './install.mjs'
import { run } from './run.mjs'

/** Runs a command that stands beside the server, with the arguments of this one. */
export async function runBuilt(name) {
  await ensureInstalled()
  await ensureBuilt()
  const command = [process.execPath, '--enable-source-maps', `dist/${name}.mjs`, ...process.argv.slice(2)]
  process.exitCode = await run(command)
}
