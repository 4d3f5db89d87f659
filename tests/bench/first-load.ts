import { gzipSync } from 'node:zlib'
import type { Page } from 'playwright-core'
import { Meeting, screens } from '../support/browser.ts'

/**
 * JavaScript that a panel member's board loads the first time, gzip, in 1000 bytes. The limit is 300.
 * Run: npx tsx tests/bench/first-load.ts
 */
const limitKb = 300
const meeting = await Meeting.open({ demo: true })
try {
  for (const screen of Object.keys(screens) as (keyof typeof screens)[]) {
    const { context, page } = await meeting.joinByLink('Heron', 'panel', `Reader ${screen}`, { screen })
    const fresh = await context.newPage()
    const kb = (await scriptBytes(fresh, '/case/demo-heron')) / 1000
    console.log(`${screen.padEnd(10)} ${kb.toFixed(0)} kB of ${limitKb}${kb > limitKb ? '  OVER' : ''}`)
    await page.close()
  }
} finally {
  await meeting.close()
}

async function scriptBytes(page: Page, path: string): Promise<number> {
  const sizes: Promise<number>[] = []
  page.on('response', (response) => {
    if (new URL(response.url()).pathname.endsWith('.js'))
      sizes.push(response.body().then((body) => gzipSync(body).length))
  })
  await page.goto(path)
  await page.waitForLoadState('networkidle')
  return (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0)
}
