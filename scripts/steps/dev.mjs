import { ensureInstalled } from './install.mjs'
import { installed, run } from './run.mjs'

await ensureInstalled()
process.exitCode = await run(
  [...installed('tsx/dist/cli.mjs'), 'watch', '--clear-screen=false', '--exclude=.next/**', 'server/main.ts'],
  {
    env: { NODE_ENV: 'development' },
  },
)
