import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { rewind } from '../../app/messages/en/rewind.ts'
import { withdraw } from '../../app/messages/en/withdraw.ts'
import {
  awayComplaints,
  Meeting,
  type Participant,
  paneOf,
  rowOf,
  seriousFaults,
  showPane,
} from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { floor, board } = messages
const slip = 'Does Mrs Sandpiper of Mill Lane have the other ear done too?'
let meeting: Meeting
let moderator: Participant, panel: Participant, observer: Participant, hall: Participant

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  ;[moderator, panel, observer, hall] = await Promise.all([
    meeting.joinByLink('Heron', 'moderator', 'Mod Merlin'),
    meeting.joinByLink('Heron', 'panel', 'Panel Plover', { screen: 'phone' }),
    meeting.joinByLink('Heron', 'observer', 'Obs Osprey'),
    meeting.joinByLink('Heron', 'observer', 'Hall Heron', { screen: 'projector' }),
  ])
  await hall.page.goto(`${new URL(hall.page.url()).pathname}/screen`)
}, 600_000)
afterAll(() => meeting.close())

const dialogOf = (page: Page) => page.getByRole('dialog', { name: withdraw.title })

async function ask(page: Page, text: string): Promise<void> {
  await showPane(page, 'floor')
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByLabel(floor.ask.label).press('Control+Enter')
  // Text that looks identifying is pointed out first; here somebody posts it all the same.
  const anyway = page.getByRole('button', { name: messages.postGuard.postAnyway })
  await Promise.race([anyway.waitFor(), rowOf(paneOf(page, 'floor'), text).waitFor()])
  if (await anyway.isVisible()) await anyway.click()
  await rowOf(paneOf(page, 'floor'), text).waitFor()
}

it('takes what is on the main screen from every page with one key, a reason and Enter', async () => {
  await ask(panel.page, slip)
  const row = rowOf(await showPane(moderator.page, 'floor'), slip)
  await row.getByRole('button', { name: slip, exact: true }).focus()
  await moderator.page.keyboard.press('s')
  await hall.page.getByText(slip).waitFor()
  await observer.page.getByText(slip).first().waitFor()
  await moderator.page.keyboard.press('Shift+W')
  const dialog = dialogOf(moderator.page)
  await dialog.getByText(slip).waitFor()
  expect(await seriousFaults(moderator.page)).toEqual([])
  await moderator.page.keyboard.press('Enter')
  await dialog.getByText(withdraw.reasonMissing).waitFor()
  await moderator.page.keyboard.type('A name and an address')
  await moderator.page.keyboard.press('Enter')
  await dialog.waitFor({ state: 'hidden' })
  for (const { page } of [hall, observer, panel, moderator])
    await page.getByText(slip).first().waitFor({ state: 'detached' })
})

it('is gone from rewind as well', async () => {
  await moderator.page.getByRole('button', { name: board.rewind }).click()
  await moderator.page.getByRole('slider', { name: rewind.moment }).focus()
  for (let minute = 0; minute < 2; minute++) await moderator.page.keyboard.press('Shift+ArrowLeft')
  await moderator.page.getByText(/As it was at/).waitFor()
  expect(await moderator.page.getByText('Sandpiper').count()).toBe(0)
  await moderator.page.getByRole('button', { name: rewind.backToNow }).click()
})

it('finds something by its words, and says what it needs when the link is away', async () => {
  meeting.allow(awayComplaints)
  await moderator.page.keyboard.press('Shift+W')
  const dialog = dialogOf(moderator.page)
  await dialog.getByRole('combobox', { name: withdraw.which }).fill('membrane')
  await moderator.page.keyboard.press('Enter')
  await dialog.getByText(/How much of the membrane/).waitFor()
  await moderator.context.setOffline(true)
  await dialog.getByText(withdraw.offline).waitFor()
  expect(await dialog.getByRole('button', { name: withdraw.submit }).isDisabled()).toBe(true)
  await moderator.context.setOffline(false)
  await dialog.getByText(withdraw.offline).waitFor({ state: 'detached' })
  await moderator.page.keyboard.press('Escape')
})

it('is offered to nobody but the moderator', async () => {
  for (const { page } of [panel, observer]) {
    await page.keyboard.press('Shift+W')
    expect(await dialogOf(page).count()).toBe(0)
  }
})
