import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import {
  allSee,
  isStored,
  Meeting,
  type Participant,
  paneOf,
  rowOf,
  seriousFaults,
  showPane,
} from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { decisions, forecast, plan, whatIf, words } = messages
let meeting: Meeting
let moderator: Participant, team: Participant, panelOne: Participant, panelTwo: Participant, observer: Participant
let everybody: readonly Participant[]

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  const five = await meeting.joinFiveByLinks('Heron')
  ;({ moderator, team, panelOne, panelTwo, observer, everybody } = five)
  await Promise.all(everybody.map(({ page }) => showPane(page, 'decisions')))
}, 600_000)
afterAll(() => meeting.close())

const pane = (page: Page): Locator => paneOf(page, 'decisions')
const editor = (page: Page, kind: keyof typeof decisions.kind): Locator =>
  pane(page).getByRole('textbox', { name: decisions.editor.label(decisions.kind[kind]) })

it('lets two people write one note together, each with the other in view, and everybody read along', async () => {
  await pane(team.page)
    .getByRole('button', { name: decisions.note.add(decisions.kind.finding) })
    .click()
  await editor(team.page, 'finding').focus()
  await team.page.keyboard.type('Stapes moves with the needle.')
  await allSee(everybody, (page) => pane(page).getByText('Stapes moves with the needle.'))

  const named = decisions.note.name(decisions.kind.finding, 'Stapes moves with the needle.')
  await pane(moderator.page).getByRole('button', { name: named }).focus()
  await moderator.page.keyboard.press('e')
  await editor(moderator.page, 'finding').waitFor()
  await editor(moderator.page, 'finding').focus()
  await moderator.page.keyboard.press('Control+End')
  await Promise.all([
    moderator.page.keyboard.type(' Reflex seen.'),
    team.page.keyboard.press('Control+Home').then(() => team.page.keyboard.type('Sure: ')),
  ])
  await editor(team.page, 'finding').getByText('Mod Merlin').waitFor()
  await editor(moderator.page, 'finding').getByText('Team Teal').waitFor()
  await allSee([panelOne, panelTwo, observer], (page) =>
    pane(page).getByText('Sure: Stapes moves with the needle. Reflex seen.', { exact: true }),
  )
  for (const { page } of [team, moderator]) {
    await editor(page, 'finding').press('Escape')
    await pane(page).getByText('Sure: Stapes moves with the needle. Reflex seen.', { exact: true }).waitFor()
    await isStored(page)
  }
})

it('lets a note cite a question, and leads from the note to it', async () => {
  const { page } = team
  const named = decisions.note.name(decisions.kind.finding, 'Sure: Stapes moves with the needle. Reflex seen.')
  await pane(page).getByRole('button', { name: named }).focus()
  await page.keyboard.press('t')
  await pane(page).getByRole('combobox', { name: decisions.form.cite }).fill('stapes tested direct view')
  await page.keyboard.press('Enter')
  const cited = (where: Page) => pane(where).getByText(/Was the stapes tested under direct view\?/)
  await allSee(everybody, cited)
  await cited(observer.page).click()
  await paneOf(observer.page, 'floor')
    .getByRole('button', { name: /Was the stapes tested under direct view\?/ })
    .waitFor()
  await showPane(observer.page, 'decisions')
})

it('strikes a note with its reason and keeps it legible', async () => {
  const { page } = moderator
  await pane(page)
    .getByRole('button', { name: decisions.note.add(decisions.kind.reason) })
    .click()
  await editor(page, 'reason').focus()
  await page.keyboard.type('Because the membrane is free.')
  await page.keyboard.press('Escape')
  const named = decisions.note.name(decisions.kind.reason, 'Because the membrane is free.')
  await pane(page).getByRole('button', { name: named }).focus()
  await page.keyboard.press('x')
  await page.getByLabel(decisions.form.strike).fill('it is not free')
  await page.keyboard.press('Enter')
  await allSee(everybody, (where) => pane(where).getByText('it is not free', { exact: true }))
  await pane(observer.page).getByText('Because the membrane is free.').waitFor()
})

it('writes a contingency as a trigger that can be watched, and moves it with a reason', async () => {
  const { page } = team
  const form = decisions.contingency
  await pane(page).getByRole('button', { name: form.add }).click()
  await pane(page)
    .getByLabel(form.measure, { exact: true })
    .selectOption({ label: decisions.trigger.measure['air-bone-gap'] })
  await pane(page).getByLabel(form.from, { exact: true }).selectOption({ label: '1 kHz' })
  await pane(page).getByLabel(form.to, { exact: true }).selectOption({ label: '4 kHz' })
  await pane(page).getByLabel(form.change, { exact: true }).selectOption({ label: form.changes['is-above'] })
  await pane(page)
    .getByLabel(/^Amount/)
    .fill('abc')
  await pane(page).getByLabel(form.plan).fill('Scan for contact.')
  await pane(page).getByRole('button', { name: form.save }).click()
  await pane(page).getByRole('alert').filter({ hasText: 'A number from' }).waitFor()
  await pane(page)
    .getByLabel(/^Amount/)
    .fill('25')
  await pane(page).getByRole('button', { name: form.save }).click()
  const sentence = /the air-bone gap at 1 to 4 kHz is above 25 dB/
  await allSee(everybody, (where) => pane(where).getByText(sentence).first())
  await allSee(everybody, (where) => pane(where).getByText('Scan for contact.'))

  await pane(moderator.page)
    .getByRole('button', { name: new RegExp(`^${words.contingencyState.watching}: if ${sentence.source}`) })
    .focus()
  await moderator.page.keyboard.press('m')
  await moderator.page.getByLabel(form.why, { exact: true }).fill('Gap of 30 dB at the first fitting')
  await moderator.page.keyboard.press('Enter')
  await allSee(everybody, (where) => pane(where).getByText('Gap of 30 dB at the first fitting'))
})

it('writes a contingency on the words that are understood, at a level that is one', async () => {
  const { page } = team
  const form = decisions.contingency
  await pane(page).getByRole('button', { name: form.add }).click()
  await pane(page).getByRole('radio', { name: form.words, exact: true }).check()
  await pane(page).getByText(form.wordsHint).waitFor()
  const level = pane(page).getByLabel(form.speechLevel, { exact: true })
  await level.fill('loud')
  await pane(page).getByRole('alert').filter({ hasText: 'A number from' }).waitFor()
  await level.fill('60')
  await pane(page)
    .getByLabel(form.reference, { exact: true })
    .selectOption({ label: decisions.trigger.reference['first-fitting'] })
  await pane(page).getByLabel(form.plan).fill('Fit anew.')
  expect(await seriousFaults(page)).toEqual([])
  await pane(page).getByRole('button', { name: form.save }).click()
  const sentence = /the aided word score in quiet at 60 dB SPL falls by more than chance against first fitting/
  await allSee(everybody, (where) => pane(where).getByText(sentence).first())
})
it('computes the forecast anew for everybody when the team changes the plan, and says where a number is from', async () => {
  await Promise.all(everybody.map(({ page }) => showPane(page, 'plan')))
  const numbers = (page: Page) => paneOf(page, 'plan').getByRole('region', { name: forecast.title, exact: true })
  const before = await numbers(panelOne.page).textContent()
  const site = paneOf(team.page, 'plan').getByLabel(plan.couplingSite)
  await site.selectOption({ label: words.couplingSite['stapes-head'] })
  await allSee([panelOne, panelTwo, observer], (page) =>
    paneOf(page, 'plan').getByText(words.couplingSite['stapes-head']).first(),
  )
  await expect.poll(() => numbers(panelOne.page).textContent()).not.toBe(before)
  await numbers(panelOne.page)
    .getByRole('button', { name: /Why\?$/ })
    .first()
    .click()
  const why = panelOne.page.getByRole('dialog')
  await why.getByText(forecast.why.sourcesTitle).waitFor()
  await why.getByText(/80 %/).first().waitFor()
  await panelOne.page.keyboard.press('Escape')
})

it('goes through the steps by keys, and everybody sees which one is under way', async () => {
  await Promise.all(everybody.map(({ page }) => showPane(page, 'steps')))
  const step = (page: Page, title: string) => rowOf(paneOf(page, 'steps'), title)
  const coagulation = 'Last coagulation before the device leaves its pack'
  await step(team.page, 'Remove the overhang of the round-window niche')
    .getByRole('button', { name: 'Remove the overhang of the round-window niche', exact: true })
    .focus()
  await team.page.keyboard.press('n')
  await step(team.page, coagulation).getByRole('button', { name: coagulation, exact: true }).focus()
  await team.page.keyboard.press('n')
  await allSee(everybody, (page) => step(page, coagulation).getByText(words.stepState['under-way']))
})

it('gives panel and observer nothing to change in plan, steps and decisions', async () => {
  // What one assumes or in which order one reads is one's own and written nowhere.
  const own = [forecast.sort, whatIf.slider.fixationAt, whatIf.slider.actuator]
  const written = [decisions.act.edit, decisions.act.strike, decisions.contingency.add, forecast.putOnScreen]
  for (const { page } of [panelTwo, observer])
    for (const title of ['plan', 'steps', 'decisions'] as const) {
      const region = await showPane(page, title)
      expect(await region.getByRole('textbox').count()).toBe(0)
      const ownChoices = await Promise.all(own.map((name) => region.getByRole('combobox', { name }).count()))
      expect(await region.getByRole('combobox').count()).toBe(ownChoices.reduce((sum, count) => sum + count, 0))
      for (const name of [...written, whatIf.freeze.submit, forecast.chooseNamed('')])
        expect(await region.getByRole('button', { name }).count()).toBe(0)
    }
})
