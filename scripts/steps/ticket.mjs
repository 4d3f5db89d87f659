import { ensureBuilt } from './build.mjs'
import { ensureInstalled } from './install.mjs'
import { run } from './run.mjs'

await ensureInstalled()
await ensureBuilt()
process.exitCode = await run([process.execPath, '--enable-source-maps', 'dist/ticket.mjs', ...process.argv.slice(2)])
