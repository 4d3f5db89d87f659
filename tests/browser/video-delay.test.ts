import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { themeCookie } from '../../app/theme/theme.ts'
import { markCount } from '../../lib/board/video-delay.ts'
import { Meeting, overflowPx, type Participant, paneOf, rowOf, seriousFaults, showPane } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { board, delay, floor, screens } = messages
let meeting: Meeting
let moderator: Participant
let remote: Participant
let other: Participant
let hall: Participant

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  ;[moderator, remote, other, hall] = await Promise.all([
    meeting.joinByLink('Heron', 'moderator', 'Mod Merlin'),
    meeting.joinByLink('Heron', 'panel', 'Panel Pipit', { screen: 'phone' }),
    meeting.joinByLink('Heron', 'panel', 'Panel Plover', { screen: 'laptop' }),
    meeting.joinByLink('Heron', 'observer', 'Hall Heron', { screen: 'projector' }),
  ])
  await hall.page.goto(`${new URL(hall.page.url()).pathname}/screen`)
  await setClockAhead(remote.page, 10 * 60_000)
}, 600_000)
afterAll(() => meeting.close())

/** A device whose clock was set wrongly by hand. */
async function setClockAhead(page: Page, byMs: number): Promise<void> {
  await page.addInitScript((ahead) => {
    const now = Date.now.bind(Date)
    Date.now = () => now() + ahead
  }, byMs)
  await page.reload()
}

const markOn = (page: Page) => page.locator('p').filter({ hasText: /^\d{1,2}$/ })

/** The number that has just come up on the main screen. */
async function nextMark(page: Page): Promise<number> {
  const before = await markOn(page).textContent()
  await page.waitForFunction(
    (old) => [...document.querySelectorAll('p')].some((p) => /^\d{1,2}$/.test(p.textContent) && p.textContent !== old),
    before,
  )
  return Number(await markOn(page).textContent())
}

/** The number that came up so many changes before (or after) another. */
const shifted = (mark: number, by: number): number => ((mark - 1 + by + markCount) % markCount) + 1

async function openDelay(page: Page): Promise<void> {
  await page.getByRole('button', { name: board.openMenu }).click()
  await page.getByRole('button', { name: board.videoDelay }).click()
  await page.getByRole('dialog', { name: delay.title }).waitFor()
}

/** Presses as the mark changes in the hall, and says that another number came: what somebody sees whose picture is late. */
async function press(page: Page, by: number): Promise<void> {
  const mark = await nextMark(hall.page)
  await page.getByRole('button', { name: delay.press }).focus()
  await page.keyboard.press('Space')
  await page.keyboard.type(String(shifted(mark, by)))
  await page.keyboard.press('Enter')
}

it('puts the mark up with one key, and everybody knows that it is there', async () => {
  await moderator.page.keyboard.press('m')
  await hall.page.getByText(screens.screen.syncMarkHow).waitFor()
  await markOn(hall.page).waitFor()
  await moderator.page.getByRole('banner').getByText(board.onScreen['sync-mark']).waitFor()
})

it('measures a delay by three presses at the keyboard, on a device whose clock is ten minutes ahead', async () => {
  const { page } = remote
  await openDelay(page)
  await press(page, 1)
  await page.getByRole('alert').getByText(delay.problem['before-the-change']).waitFor()
  for (const turn of [1, 2, 3]) {
    await page.getByText(delay.turn(turn, 3)).waitFor()
    await press(page, -3)
  }
  await page.getByText(/^Your video delay is 1[23]\.\d s$/).waitFor()
  await page.getByText(/^Median of three presses, from 1[23]\.\d s to 1[2345]\.\d s\./).waitFor()
  expect(await overflowPx(page)).toBe(0)
})

it('refuses words that are no number of the mark', async () => {
  const { page } = other
  await openDelay(page)
  await page.getByRole('button', { name: delay.press }).click()
  await page.keyboard.type('77')
  await page.getByRole('button', { name: delay.take }).click()
  await page.getByRole('alert').getByText(delay.problem['no-such-mark']).waitFor()
  await page.keyboard.press('Escape')
})

it('tells the moderator what the asker was looking at, and nobody else', async () => {
  const late = 'Did the drill just slip?'
  const plain = 'Which burr is that?'
  await remote.page.keyboard.press('Escape')
  for (const [{ page }, text] of [[remote, late] as const, [other, plain] as const]) {
    await showPane(page, 'floor')
    await page.getByLabel(floor.ask.label).fill(text)
    await page.getByLabel(floor.ask.label).press('Control+Enter')
    await rowOf(paneOf(page, 'floor'), text).waitFor()
  }
  const pane = await showPane(moderator.page, 'floor')
  await rowOf(pane, late)
    .getByText(/^Asked while: step 4, .+, 0:\d\d ago$/)
    .waitFor()
  await rowOf(pane, plain).waitFor()
  expect(await rowOf(pane, plain).getByText(delay.askedWhile).count()).toBe(0)
  expect(await paneOf(remote.page, 'floor').getByText(delay.askedWhile).count()).toBe(0)
})

it('keeps the delay when the page is opened anew, and forgets it when asked to', async () => {
  const { page } = remote
  await page.reload()
  await openDelay(page)
  await page.getByText(/^Your video delay is 1[23]\.\d s$/).waitFor()
  await page.getByRole('button', { name: delay.forget }).click()
  await page.getByRole('button', { name: delay.press }).waitFor()
})

describe.each(['clinic', 'theatre'] as const)('the %s theme', (theme) => {
  it('has no serious fault in measuring and on the mark', async () => {
    for (const { context, page } of [other, hall]) {
      await context.addCookies([{ name: themeCookie, value: theme, url: meeting.server.url }])
      await page.reload()
    }
    await openDelay(other.page)
    await other.page.getByRole('button', { name: delay.press }).click()
    expect(await seriousFaults(other.page)).toEqual([])
    await markOn(hall.page).waitFor()
    expect(await seriousFaults(hall.page)).toEqual([])
  })
})
