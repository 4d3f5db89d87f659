import { gzipSync } from 'node:zlib'
import type { Page, Response } from 'playwright-core'
import { firstViewMark } from '../../app/board/frame/first-view.ts'

/** Bytes of JavaScript, gzip. */
export interface ScriptWeight {
  /** asked for before chart and questions stood */
  readonly firstView: number
  /** with the forecasts of the shared column, which come when the page is calm */
  readonly whole: number
  /** file and bytes of each script of the first view, largest first */
  readonly scripts: readonly string[]
}

/** Opens `path` in a page that has loaded nothing yet and weighs the scripts that it asks for. */
export async function scriptWeight(page: Page, path: string): Promise<ScriptWeight> {
  const sizes = new Map<string, Promise<number>>()
  const weigh = (response: Response) => {
    if (new URL(response.url()).pathname.endsWith('.js'))
      sizes.set(
        response.url(),
        response.body().then((body) => gzipSync(body).length),
      )
  }
  page.on('response', weigh)
  await page.goto(path)
  await page.waitForFunction((mark) => performance.getEntriesByName(mark).length > 0, firstViewMark)
  await page.waitForLoadState('networkidle')
  // What is loaded ahead later does not count, and its page may be closed before it has come.
  page.off('response', weigh)
  const early = new Set(
    await page.evaluate((mark) => {
      const stands = performance.getEntriesByName(mark)[0]?.startTime ?? 0
      return performance
        .getEntriesByType('resource')
        .filter(({ startTime }) => startTime < stands)
        .map(({ name }) => name)
    }, firstViewMark),
  )
  const weighed = await Promise.all([...sizes].map(async ([url, size]) => ({ url, size: await size })))
  const sum = (of: typeof weighed) => of.reduce((total, { size }) => total + size, 0)
  const first = weighed.filter(({ url }) => early.has(url)).sort((a, b) => b.size - a.size)
  const scripts = first.map(({ url, size }) => `${new URL(url).pathname} ${size}`)
  return { firstView: sum(first), whole: sum(weighed), scripts }
}
