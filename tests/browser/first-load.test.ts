import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { Meeting } from '../support/browser.ts'
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
