import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { themeCookie } from '../../app/theme/theme.ts'
import { awayComplaints, isOpen, Meeting, overflowPx, type Participant, seriousFaults } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { meeting: words, overview, screens: pages } = messages
let meeting: Meeting
let moderator: Participant
let panel: Participant
let hall: Participant

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  ;[moderator, panel, hall] = await Promise.all([
    meeting.joinBy(meeting.server.link('moderator'), 'moderator', 'Mod Merlin'),
    meeting.joinBy(meeting.server.link('panel'), 'panel', 'Panel Plover', { screen: 'phone' }),
    meeting.joinBy(meeting.server.link('observer'), 'observer', 'Hall Heron', { screen: 'projector' }),
  ])
  await hall.page.goto('/programme/demo/screen')
}, 600_000)
afterAll(() => meeting.close())

const inTheatre = messages.words.phase['in-theatre']
const onNow = (page: Page): Locator => page.getByRole('region', { name: words.onNow })
const cases = (page: Page): Locator => page.getByRole('region', { name: overview.cases }).getByRole('listitem')
const heading = (page: Page, name: string): Locator => page.getByRole('heading', { name, exact: true })

/** Presses a button of the moderator's page by keyboard alone. */
async function press(name: string): Promise<void> {
  await moderator.page.getByRole('button', { name, exact: true }).focus()
  await moderator.page.keyboard.press('Enter')
}

it('lands everybody with the link of their role on the programme, which shows its order and that it has not begun', async () => {
  for (const { page } of [moderator, panel]) {
    expect(new URL(page.url()).pathname).toBe('/programme/demo')
    await onNow(page).getByText(words.notBegun).waitFor()
    expect(await cases(page).getByRole('heading').allTextContents()).toEqual(['Heron', 'Plover'])
    await cases(page).last().getByText('Coffee').waitFor()
  }
  await heading(hall.page, 'Heron').waitFor()
  await hall.page.getByText(words.waiting.next, { exact: true }).waitFor()
})

it('offers nothing to lead with to the panel', async () => {
  expect(await panel.page.getByRole('button', { name: words.bringOnCase('Heron') }).count()).toBe(0)
  expect(await panel.page.getByRole('button', { name: words.up('Plover') }).count()).toBe(0)
})

it('follows the moderator to a case, on the programme, its main screen and its theatre view', async () => {
  const theatre = await hall.context.newPage()
  await theatre.goto('/programme/demo/theatre')
  await heading(theatre, 'Heron').waitFor()
  await press(words.bringOnCase('Heron'))
  await onNow(panel.page)
    .getByRole('link', { name: words.openBoard('Heron') })
    .waitFor()
  // The main screen of the case itself: its foot says how far the case is.
  await hall.page.getByText(inTheatre, { exact: true }).waitFor()
  await theatre.getByText('Remove the overhang of the round-window niche').waitFor()
  await theatre.close()
})

it('tells people in the board of a case that the meeting went on, and lets them stay or follow', async () => {
  const { page } = panel
  await onNow(page)
    .getByRole('link', { name: words.openBoard('Heron') })
    .click()
  await isOpen(page)
  await press(words.bringOnCase('Plover'))
  await page.getByText(words.wentOn('Plover')).waitFor()
  await page.getByRole('button', { name: words.stay }).press('Enter')
  await page.getByText(words.wentOn('Plover')).waitFor({ state: 'detached' })
  await press(words.bringOnCase('Heron'))
  await onNow(moderator.page)
    .getByRole('link', { name: words.openBoard('Heron') })
    .waitFor()
  await press(words.bringOnCase('Plover'))
  await page.getByText(words.wentOn('Plover')).waitFor()
  await page.getByRole('link', { name: words.follow }).press('Enter')
  await page.waitForURL(/\/case\/demo-plover/)
  await isOpen(page)
  await page.goto('/programme/demo')
})

it('keeps what is on when the server is killed, and everybody is told again without a hand', async () => {
  meeting.allow(awayComplaints)
  await onNow(panel.page).getByText('Plover', { exact: true }).waitFor()
  await meeting.server.kill9()
  await panel.page
    .getByRole('alert')
    .filter({ hasText: /The link is lost since/ })
    .waitFor()
  await meeting.server.start()
  const lost = onNow(panel.page).getByRole('alert')
  await lost.waitFor({ state: 'detached' })
  await onNow(panel.page).getByText('Plover', { exact: true }).waitFor()
  await onNow(moderator.page).getByRole('alert').waitFor({ state: 'detached' })
  await press(words.goBetween)
  await onNow(panel.page).getByText(words.between).waitFor()
  await heading(hall.page, words.waiting.thatWasAll).waitFor()
})

it('follows after the network of the main screen was away', async () => {
  meeting.allow(awayComplaints)
  await hall.context.setOffline(true)
  await hall.page.getByText(/Link lost since/).waitFor()
  await press(words.bringOnCase('Heron'))
  await hall.context.setOffline(false)
  await hall.page.getByText(inTheatre, { exact: true }).waitFor()
})

it('is put in order by keyboard, with the focus kept on the case that moves, and given a time', async () => {
  const { page } = moderator
  await page.getByRole('button', { name: words.up('Plover') }).focus()
  await page.keyboard.press('Alt+ArrowUp')
  await page.getByText(words.moved('Plover', 1, 2)).waitFor()
  for (const { page: each } of [moderator, panel])
    await cases(each).first().getByRole('link', { name: 'Plover' }).waitFor()
  await page.waitForFunction((name) => document.activeElement?.getAttribute('aria-label') === name, words.up('Plover'))
  await press(words.setTimeOf('Heron'))
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel(words.plannedAt).fill('2031-03-02T10:45')
  await dialog.getByLabel(words.breakBefore).fill('Lunch')
  await dialog.getByLabel(words.breakBefore).press('Enter')
  for (const { page: each } of [moderator, panel]) {
    await cases(each).last().getByText('2 Mar 2031, 10:45').waitFor()
    await cases(each).last().getByText('Lunch').waitFor()
  }
})

describe('the papers of a programme', () => {
  it('hold every case with its codes on A4, and a code from them is found whichever case it is of', async () => {
    const page = await moderator.context.newPage()
    await page.goto('/programme/demo/handout')
    await heading(page, 'Heron').waitFor()
    await heading(page, 'Plover').waitFor()
    const plover = page.getByRole('article').filter({ has: heading(page, 'Plover') })
    const code = (await plover.locator('data').first().textContent()) ?? ''
    const pdf = await page.pdf({ preferCSSPageSize: true })
    expect(pdf.length).toBeGreaterThan(20_000)
    expect(pdf.toString('latin1')).toMatch(/\/MediaBox \[0 0 59[45](\.\d+)? 84[12](\.\d+)?\]/)

    await page.goto('/programme/demo/code')
    const { code: answers } = pages
    const check = async (typed: string) => {
      await page.getByLabel(answers.label).fill(typed)
      await page.getByLabel(answers.label).press('Enter')
    }
    await check(code)
    await page.getByText(words.codeFoundIn('Plover')).waitFor()
    await heading(page, answers.answer.current).waitFor()
    await check('0000-0001-2')
    await page.getByText(answers.problem.check).or(page.getByText(words.codeUnknown)).waitFor()
    await page.close()
  })
})

const paths = ['', '/screen', '/theatre', '/handout', '/code'].map((page) => `/programme/demo${page}`)

describe.each(['clinic', 'theatre'] as const)('the %s theme', (theme) => {
  it('has no serious fault on any page of the programme', async () => {
    const { context, page } = moderator
    await context.addCookies([{ name: themeCookie, value: theme, url: meeting.server.url }])
    for (const path of paths) {
      await page.goto(path)
      await page.getByRole('heading').first().waitFor()
      expect([path, await seriousFaults(page)]).toEqual([path, []])
    }
  }, 180_000)
})

it('never scrolls sideways on a phone', async () => {
  for (const path of paths) {
    await panel.page.goto(path)
    await panel.page.getByRole('heading').first().waitFor()
    expect([path, await overflowPx(panel.page)]).toEqual([path, 0])
  }
})
