import { Meeting, screens } from '../support/browser.ts'
import { scriptWeight } from '../support/script-weight.ts'

/**
 * JavaScript that a panel member's board loads the first time, gzip, in 1000 bytes: until chart and questions stand (limit
 * 300, held by tests/browser/first-load.test.ts), and with the shared column that follows.
 * Run: npx tsx tests/bench/first-load.ts
 */
const meeting = await Meeting.open({ demo: true })
try {
  for (const screen of Object.keys(screens) as (keyof typeof screens)[]) {
    const { context, page } = await meeting.joinBy(meeting.server.link('panel'), 'panel', `Reader ${screen}`, {
      screen,
    })
    const { firstView, whole } = await scriptWeight(await context.newPage(), '/case/demo-heron')
    const kb = (bytes: number) => (bytes / 1000).toFixed(0)
    console.log(`${screen.padEnd(10)} ${kb(firstView)} kB, whole board ${kb(whole)} kB`)
    await page.close()
  }
} finally {
  await meeting.close()
}
