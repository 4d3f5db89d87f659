import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { leave } from '../../app/messages/en/leave.ts'
import { awayComplaints, Meeting, overflowPx, type Participant, seriousFaults, showPane } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { board, floor, shell } = messages
let meeting: Meeting
let caseId: string

beforeAll(async () => {
  meeting = await Meeting.open()
  meeting.allow(awayComplaints)
  caseId = await meeting.server.createCase('Case Heron')
}, 600_000)
afterAll(() => meeting.close())

const copies = ({ page }: Participant): Promise<string[]> =>
  page.evaluate(async () =>
    (await indexedDB.databases()).map(({ name }) => name ?? '').filter((name) => /\.(record|floor)\./.test(name)),
  )
const texts = ({ page }: Participant): Promise<string[]> =>
  page.evaluate(() => [...Object.keys(localStorage), ...Object.keys(sessionStorage)])

async function toLeavePage({ page }: Participant): Promise<void> {
  await page.getByRole('button', { name: board.menu }).click()
  await page.getByRole('link', { name: shell.leave }).click()
  await page.getByRole('heading', { name: leave.title }).waitFor()
}

describe('leaving a computer that others use too', () => {
  it('signs out and takes away the copies, what was being typed, and the way back', async () => {
    const panel = await meeting.joinCase(caseId, 'panel', 'Panel Plover', { screen: 'phone' })
    const { page } = panel
    await showPane(page, 'floor')
    await page.getByLabel(floor.ask.label).fill('A question in the making')
    await expect.poll(() => copies(panel)).toHaveLength(2)
    await toLeavePage(panel)
    await page.getByText(leave.kept(1)).waitFor()
    expect([await seriousFaults(page), await overflowPx(page)]).toEqual([[], 0])
    await page.getByRole('button', { name: leave.act }).click()
    await page.getByRole('heading', { name: leave.done }).waitFor()
    expect([await copies(panel), await texts(panel)]).toEqual([[], []])
    meeting.allow(/401/)
    expect((await page.request.get(`/api/cases/${caseId}`)).status()).toBe(401)
  })

  it('says what is not on the board yet, and loses it only when that is wanted', async () => {
    const team = await meeting.joinCase(caseId, 'team', 'Team Teal')
    const { page, context } = team
    await page.locator('[data-works-offline=true]').waitFor({ state: 'attached' })
    await context.setOffline(true)
    await page.getByText(board.away.offline.kept).waitFor()
    await showPane(page, 'floor')
    await page.getByLabel(floor.ask.label).fill('Asked without a link?')
    await page.getByLabel(floor.ask.label).press('Control+Enter')
    await page.getByRole('banner').getByText(board.storedState.offline).waitFor()
    await page.close()
    await context.setOffline(false)
    const later = { ...team, page: await context.newPage() }
    await later.page.goto('/leave')
    await later.page.getByText(leave.lost(1, 0)).waitFor()
    await later.page.getByRole('button', { name: leave.actDespite }).click()
    await later.page.getByRole('heading', { name: leave.done }).waitFor()
    expect([await copies(later), await texts(later)]).toEqual([[], []])
  })

  it('tells of a copy that another window holds, and removes it when that window is closed', async () => {
    const panel = await meeting.joinCase(caseId, 'panel', 'Panel Pipit')
    await expect.poll(() => copies(panel)).toHaveLength(2)
    const name = (await copies(panel))[0] as string
    // A window that does not let go, as one that hangs or was put to sleep.
    await panel.page.goto('/')
    await panel.page.evaluate(
      (copy) =>
        new Promise<void>((resolve) => {
          indexedDB.open(copy).onsuccess = () => resolve()
        }),
      name,
    )
    const second = { ...panel, page: await panel.context.newPage() }
    await second.page.goto('/leave')
    await second.page.getByRole('button', { name: leave.act }).click()
    await second.page.getByRole('heading', { name: leave.held }).waitFor()
    await panel.page.close()
    await second.page.getByRole('button', { name: leave.again }).click()
    await second.page.getByRole('heading', { name: leave.done }).waitFor()
    expect(await copies(second)).toEqual([])
  })
})
