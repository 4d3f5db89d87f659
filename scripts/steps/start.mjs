import { ensureBuilt } from './build.mjs'
import { ensureInstalled } from './install.mjs'
import { run } from './run.mjs'

await ensureInstalled()
await ensureBuilt()
process.exitCode = await run([process.execPath, 'dist/server.mjs'], {
  env: { NODE_ENV: 'production' },
})
