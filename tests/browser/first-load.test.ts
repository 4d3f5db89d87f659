import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { root } from '../../scripts/steps/run.mjs'
import { Meeting, overflowPx, paneOf } from '../support/browser.ts'
import { messages } from '../support/messages.ts'
import { scriptWeight } from '../support/script-weight.ts'

/** JavaScript that may be asked for before chart and questions of a panel member's board stand, bytes gzip. */
const limit = 300_000
let meeting: Meeting

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
}, 600_000)
afterAll(() => meeting.close())

describe('the first load of the board of a panel member', () => {
  it.each(['phone', 'laptop', 'projector'] as const)('is at most 300 kB of script on a %s', async (screen) => {
    // As somebody who has just joined: nothing of the case is in this browser yet.
    const { context } = await meeting.joinBy(meeting.server.link('panel'), 'panel', `Reader ${screen}`, { screen })
    const { firstView, whole, scripts } = await scriptWeight(await context.newPage(), '/case/demo-heron')
    expect(firstView).toBeGreaterThan(100_000)
    expect(firstView, scripts.join('\n')).toBeLessThanOrEqual(limit)
    expect(whole).toBeGreaterThanOrEqual(firstView)
  })
})

describe('the board of a panel member on a wide screen', () => {
  it('stands in three columns with nothing still loading', async () => {
    const { page } = await meeting.joinBy(meeting.server.link('panel'), 'panel', 'Panel Plover', {
      screen: 'projector',
    })
    await page.goto('/case/demo-heron')
    await Promise.all((['hearing', 'plan', 'floor'] as const).map((pane) => paneOf(page, pane).waitFor()))
    const loading = page.getByText(messages.shell.loading, { exact: true }).filter({ visible: true })
    await expect.poll(() => loading.count()).toBe(0)
    expect(await overflowPx(page)).toBe(0)
    // The picture in README.md: WRITE_PICTURE=1 npx vitest run tests/browser/first-load.test.ts
    if (process.env.WRITE_PICTURE === '1') await page.screenshot({ path: join(root, 'docs', 'board.png') })
  })
})
