import { ensureBuilt } from './build.mjs'
import { ensureInstalled } from './install.mjs'
import { run } from './run.mjs'
import { serverArguments, serverEnvironment } from './server-process.mjs'

await ensureInstalled()
await ensureBuilt()
process.exitCode = await run([process.execPath, ...serverArguments], { env: serverEnvironment })
