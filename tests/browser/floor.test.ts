import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { allSee, Meeting, type Participant, paneOf, rowOf, showPane } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { floor, ownQuestions, postGuard, words } = messages
let meeting: Meeting
let moderator: Participant, team: Participant, panelOne: Participant, panelTwo: Participant, observer: Participant
let everybody: readonly Participant[]

beforeAll(async () => {
  meeting = await Meeting.open()
  const five = await meeting.joinFive(await meeting.server.createCase('Case Heron'))
  ;({ moderator, team, panelOne, panelTwo, observer, everybody } = five)
  await Promise.all(everybody.map(({ page }) => showPane(page, 'floor')))
}, 600_000)
afterAll(() => meeting.close())

const floorOf = (page: Page): Locator => paneOf(page, 'floor')
const question = (page: Page, text: string): Locator => rowOf(floorOf(page), text)
const group = (page: Page, state: keyof typeof words.questionState): Locator =>
  floorOf(page).getByRole('region', { name: words.questionState[state] })

async function ask(page: Page, text: string): Promise<void> {
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByLabel(floor.ask.label).press('Control+Enter')
  await question(page, text).waitFor()
}

/** Acts on a question as somebody at the keyboard: its words have the focus. */
async function key(page: Page, text: string, ...keys: string[]): Promise<void> {
  const words = question(page, text).getByRole('button', { name: text, exact: true })
  await words.focus()
  for (const one of keys) await page.keyboard.press(one)
}

/** The questions that wait, in the order in which a page shows them. */
const queue = (page: Page): Promise<string[]> =>
  group(page, 'raised').getByRole('button').filter({ hasText: /\?$/ }).allTextContents()

it('shows a question about a place on the audiogram to everybody at once', async () => {
  const { page } = panelOne
  const text = 'Does the notch at four kilohertz stay?'
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByRole('button', { name: floor.anchor.chart }).click()
  await page.getByLabel(floor.anchor.frequency, { exact: true }).selectOption({ label: '4 kHz' })
  await page.getByLabel(floor.anchor.level).selectOption('55')
  await page.getByRole('button', { name: floor.anchor.use }).click()
  await page.getByRole('button', { name: floor.ask.submit, exact: true }).click()
  await allSee(everybody, (where) =>
    question(where, text)
      .getByText(floor.place.pin('right', 4000, 55), { exact: false })
      .first(),
  )
})

it('lets others back a question once each, and never its own writer', async () => {
  const text = 'Does the notch at four kilohertz stay?'
  await question(panelTwo.page, text).getByRole('button', { name: floor.act.back }).click()
  await allSee(everybody, (page) => question(page, text).getByText(floor.thread.backers(1)))
  await key(team.page, text, 'b')
  await allSee(everybody, (page) => question(page, text).getByText(floor.thread.backers(2)))
  await key(team.page, text, 'b')
  await allSee(everybody, (page) => question(page, text).getByText(floor.thread.backers(1)))
  await key(panelOne.page, text, 'b')
  expect(await question(panelOne.page, text).getByRole('button', { name: floor.act.back }).count()).toBe(0)
})

it('keeps replies in the thread of the question', async () => {
  const text = 'Does the notch at four kilohertz stay?'
  await key(team.page, text, 'r')
  await team.page.keyboard.type('It was there before the first operation.')
  await team.page.keyboard.press('Control+Enter')
  await allSee(everybody, (page) => question(page, text).getByText(floor.thread.replies(1)))
  const opened = question(observer.page, text)
  await opened.getByRole('button', { name: text }).click()
  await opened.getByText('It was there before the first operation.').waitFor()
})

it('puts the questions in the order of the moderator on every page', async () => {
  await ask(panelTwo.page, 'Is the stapes mobile?')
  await ask(panelOne.page, 'Is the round window free?')
  await ask(panelOne.page, 'How mobile is the stapes?')
  await question(moderator.page, 'How mobile is the stapes?').waitFor()
  await key(moderator.page, 'Is the round window free?', 'Alt+ArrowUp', 'Alt+ArrowUp')
  const wanted = [
    'Is the round window free?',
    'Does the notch at four kilohertz stay?',
    'Is the stapes mobile?',
    'How mobile is the stapes?',
  ]
  for (const { page } of everybody) await expect.poll(() => queue(page)).toEqual(wanted)
})

it('folds a duplicate into the question that stands for both', async () => {
  const { page } = moderator
  await key(page, 'How mobile is the stapes?', 'f')
  await page.getByRole('combobox', { name: floor.form.foldInto }).fill('stapes mobile')
  await page.keyboard.press('Enter')
  await allSee(everybody, (where) => question(where, 'Is the stapes mobile?').getByText(floor.thread.folded(1)))
  for (const { page: where } of everybody) expect(await question(where, 'How mobile is the stapes?').count()).toBe(0)
})

it('tells the writer of a called question that it is called, and everybody its answer', async () => {
  const text = 'Is the round window free?'
  await key(moderator.page, text, 'c')
  await allSee(everybody, (page) => group(page, 'called').getByRole('button', { name: text }))
  await panelOne.page.getByText(ownQuestions.notice.called).waitFor()
  await key(moderator.page, text, 'a')
  await moderator.page.keyboard.type('Free, with a false membrane.')
  await moderator.page.keyboard.press('Enter')
  await panelOne.page.getByText(ownQuestions.notice.answered).waitFor()
  await observer.page.getByRole('button', { name: words.questionState.answered, expanded: false }).click()
  await question(observer.page, text).getByText('Free, with a false membrane.').waitFor()
})

it('defers a question to a visit and sets another aside', async () => {
  await key(moderator.page, 'Does the notch at four kilohertz stay?', 'd')
  await moderator.page.getByLabel(floor.form.deferTo).fill('Six-month visit')
  await moderator.page.keyboard.press('Enter')
  await key(moderator.page, 'Is the stapes mobile?', 'x')
  for (const state of ['deferred', 'set-aside'] as const)
    await allSee(everybody, (page) => page.getByRole('button', { name: words.questionState[state], expanded: false }))
  await panelTwo.page.getByRole('button', { name: words.questionState.deferred, expanded: false }).click()
  await panelTwo.page.getByText(floor.thread.deferredTo('Six-month visit')).waitFor()
})

it('gives an observer everything to read and nothing to change', async () => {
  const { page } = observer
  const pane = floorOf(page)
  expect(await pane.getByRole('textbox').count()).toBe(0)
  expect(await pane.getByRole('button', { name: floor.act.back }).count()).toBe(0)
  const before = await pane.textContent()
  await page.getByRole('button', { name: words.questionState['set-aside'], expanded: false }).click()
  // A key that does nothing to the question may still be one of the page's own: Escape leaves what that opened.
  for (const one of ['c', 'a', 'd', 'x', 'o', 'f', 'r', 'b', 'e', 's'])
    await key(page, 'Is the stapes mobile?', one, 'Escape')
  expect(await pane.getByRole('textbox').count()).toBe(0)
  await page.getByRole('button', { name: words.questionState['set-aside'], expanded: true }).click()
  expect(await pane.textContent()).toBe(before)
})

it('asks before a text is posted that may identify a patient, and posts nothing when its writer thinks again', async () => {
  const { page } = panelOne
  await page.getByLabel(floor.ask.label).fill('Did John Miller, born 03.04.1979, agree?')
  await page.getByRole('button', { name: floor.ask.submit, exact: true }).click()
  await page.getByRole('dialog', { name: postGuard.title }).getByRole('button', { name: postGuard.change }).click()
  expect(await page.getByLabel(floor.ask.label).inputValue()).toContain('John Miller')
  await page.getByLabel(floor.ask.label).fill('Did the patient agree to broadcasting?')
  await page.getByRole('button', { name: floor.ask.submit, exact: true }).click()
  await question(moderator.page, 'Did the patient agree to broadcasting?').waitFor()
  expect(await floorOf(moderator.page).getByText('Miller').count()).toBe(0)
})
