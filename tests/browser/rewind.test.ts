import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { type Theme, themeCookie } from '../../app/theme/theme.ts'
import {
  isStored,
  Meeting,
  overflowPx,
  type Participant,
  paneOf,
  screens,
  seriousFaults,
  showPane,
} from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { board, floor, rewind } = messages
let meeting: Meeting
let moderator: Participant, panel: Participant, observer: Participant

const first = 'Why the incus and not the window?'
const second = 'What if the joint is stiff?'

beforeAll(async () => {
  meeting = await Meeting.open()
  const caseId = await meeting.server.createCase('Case Heron')
  ;[moderator, panel, observer] = await Promise.all([
    meeting.joinCase(caseId, 'moderator', 'Mod Merlin'),
    meeting.joinCase(caseId, 'panel', 'Panel Plover'),
    meeting.joinCase(caseId, 'observer', 'Obs Osprey'),
  ])
  await ask(panel.page, first)
  await key(moderator.page, first, 'c')
  await isStored(moderator.page)
}, 600_000)
afterAll(() => meeting.close())

async function ask(page: Page, text: string): Promise<void> {
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByLabel(floor.ask.label).press('Control+Enter')
  await question(page, text).waitFor()
  await isStored(page)
}

const question = (page: Page, text: string): Locator =>
  paneOf(page, 'floor').getByRole('button', { name: text, exact: true })

async function key(page: Page, text: string, press: string): Promise<void> {
  await question(page, text).focus()
  await page.keyboard.press(press)
}

const slider = (page: Page): Locator => page.getByRole('slider', { name: rewind.moment })
const bar = (page: Page): Locator => page.getByRole('region', { name: rewind.timeline })
/** The title of the board as it was; it names the moment. */
const asItWas = (page: Page): Locator => page.getByRole('heading', { level: 1, name: /^As it was at .* - not now$/ })

async function look(page: Page): Promise<void> {
  await page.keyboard.press('t')
  await asItWas(page).waitFor()
  await isAtRest(page)
}

/** What is shown is what the slider stands at. */
const isAtRest = (page: Page): Promise<void> => bar(page).and(page.locator('[aria-busy=false]')).waitFor()

async function press(page: Page, ...keys: string[]): Promise<void> {
  for (const one of keys) await slider(page).press(one)
  await isAtRest(page)
}

it('shows the board as it was, from mark to mark, while somebody else goes on', async () => {
  const { page } = moderator
  await page.getByRole('heading', { level: 1 }).click()
  await look(page)
  expect(await slider(page).getAttribute('aria-valuetext')).toContain(rewind.mark.questions.called)
  await ask(panel.page, second)
  await press(page, 'ArrowLeft')
  expect(await slider(page).getAttribute('aria-valuetext')).toContain(`${rewind.mark.questions.raised}: ${first}`)
  await question(page, first).waitFor()
  expect(await question(page, second).count()).toBe(0)
  await press(page, 'Shift+ArrowLeft')
  await press(page, 'End')
  expect(await question(page, second).count()).toBe(0)
})

it('offers nothing that would change anything', async () => {
  const { page } = moderator
  for (const name of [floor.act.call, floor.act.back, floor.act.answer, messages.hearing.test.enter])
    expect([name, await page.getByRole('button', { name, exact: true }).count()]).toEqual([name, 0])
  expect(await page.getByLabel(floor.ask.label).filter({ visible: true }).count()).toBe(0)
  expect(await page.locator('textarea:visible, [contenteditable=true]:visible').count()).toBe(0)
  await key(page, first, 'c')
  await key(page, first, 'd')
  expect(await page.getByRole('dialog').count()).toBe(0)
})

it('goes back to now by Escape, with what came meanwhile and what was typed before', async () => {
  const { page } = moderator
  await slider(page).press('Escape')
  await question(page, second).waitFor()
  expect(await asItWas(page).count()).toBe(0)
  await page.getByRole('button', { name: board.rewind }).and(page.locator(':focus')).waitFor()
  await page.getByLabel(floor.ask.label).fill('half a question')
  await page.getByRole('button', { name: board.rewind }).click()
  await asItWas(page).waitFor()
  await page.getByRole('button', { name: rewind.backToNow }).click()
  expect(await page.getByLabel(floor.ask.label).inputValue()).toBe('half a question')
  await key(page, second, 'c')
  await paneOf(panel.page, 'floor')
    .getByRole('region', { name: messages.words.questionState.called })
    .getByText(second)
    .waitFor()
})

const moved = (text: string, from: string, to: string) =>
  rewind.change.moved(rewind.named(messages.words.kind.questions, text), from, to)

it('says what changed between two moments', async () => {
  const { page } = panel
  await page.getByRole('heading', { level: 1 }).click()
  await look(page)
  await bar(page).getByRole('button', { name: rewind.compare }).click()
  await press(page, 'Home')
  const changes = page.getByRole('region', { name: /^What changed between/ })
  await changes.getByText(rewind.change.added(rewind.named(messages.words.kind.questions, second))).waitFor()
  // The second was called later, which took back the call of the first.
  await press(page, 'ArrowRight')
  await changes.getByText(moved(first, 'called', 'raised')).waitFor()
  await press(page, 'ArrowRight')
  await changes.getByText(moved(second, 'raised', 'called')).waitFor()
  await bar(page).getByRole('button', { name: rewind.endCompare }).click()
  expect(await changes.count()).toBe(0)
  await slider(page).press('Escape')
})

it('moves by the pointer along the line', async () => {
  const { page } = panel
  await page.getByRole('heading', { level: 1 }).click()
  await look(page)
  const box = await slider(page).boundingBox()
  if (box === null) throw new TypeError('the slider is drawn')
  await page.mouse.click(box.x + 1, box.y + box.height / 2)
  await isAtRest(page)
  expect(await slider(page).getAttribute('aria-valuenow')).toBe(await slider(page).getAttribute('aria-valuemin'))
  await slider(page).press('Escape')
})

it('is not offered to observers', async () => {
  expect(await observer.page.getByRole('button', { name: board.rewind }).count()).toBe(0)
  await observer.page.keyboard.press('t')
  expect(await asItWas(observer.page).count()).toBe(0)
})

it.each(['clinic', 'theatre'] as const)(
  'has no serious fault in the %s theme, nor a phone that scrolls sideways',
  async (theme: Theme) => {
    const { context, page } = panel
    await context.addCookies([{ name: themeCookie, value: theme, url: meeting.server.url }])
    for (const screen of ['desk', 'phone'] as const) {
      await page.setViewportSize(screens[screen])
      await page.reload()
      await isStored(page)
      await look(page)
      if (screen === 'phone') await showPane(page, 'floor')
      await bar(page).getByRole('button', { name: rewind.compare }).click()
      await press(page, 'Home')
      expect([screen, await seriousFaults(page)]).toEqual([screen, []])
      expect([screen, await overflowPx(page)]).toEqual([screen, 0])
      await slider(page).press('Escape')
    }
  },
)
