import { fileURLToPath } from 'node:url'
import { CannotStart } from './cannot-start.ts'
import { demo } from './demo/demo.ts'
import { seriesDemo } from './demo/invented-series.ts'
import { createLog } from './log.ts'
import { type Served, serve } from './serve.ts'
import { readSettings } from './settings.ts'
import { StoreOutage } from './store/store.ts'

const demos = { none: undefined, day: demo, series: seriesDemo } as const

const log = createLog(
  (line) => process.stderr.write(line),
  () => new Date(),
)

try {
  const settings = readSettings(process.env)
  const served = await serve({
    settings,
    // Both server/main.ts and the bundle, dist/server.mjs, stand one folder below it.
    root: fileURLToPath(new URL('..', import.meta.url)),
    development: process.env.NODE_ENV === 'development',
    log,
    now: () => new Date(),
    demo: demos[settings.demo],
  })
  announce(served)
  closeOnSignal(served)
} catch (error) {
  if (!(error instanceof CannotStart || error instanceof StoreOutage)) throw error
  console.error(error.message)
  process.exit(1)
}

/** One write: whoever reads our output has all links as soon as it has the first. */
function announce({ url, links }: Served): void {
  const lines = links.map(({ who, path }) => `  ${who.padEnd(10)} ${url}${path}`)
  const closing = links.length > 0 ? ['', 'Each link lets whoever opens it in with that role.', ''] : []
  console.log(['', `The board is at ${url}`, '', ...lines, ...closing].join('\n'))
}

function closeOnSignal(served: Served): void {
  let closing = false
  const close = () => {
    // Who asks twice does not want to wait.
    if (closing) process.exit(1)
    closing = true
    served.close().then(
      () => process.exit(0),
      (error: unknown) => {
        log.error('close-failed', error)
        process.exit(1)
      },
    )
  }
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, close)
}
