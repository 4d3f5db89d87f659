import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { forecast as words } from '../../app/messages/en/forecast.ts'
import { forecastRecords } from '../../app/messages/en/forecast-records.ts'
import { plan as planWords } from '../../app/messages/en/plan.ts'
import { whatIf } from '../../app/messages/en/what-if.ts'
import { words as shared } from '../../app/messages/en/words.ts'
import { isStored, Meeting, type Participant, rowOf, showPane } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { fit, sealed } = forecastRecords
const { floor } = messages
let meeting: Meeting
let team: Participant, moderator: Participant, panel: Participant, hall: Participant

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  ;[team, moderator, panel, hall] = await Promise.all([
    meeting.joinByLink('Heron', 'team', 'Team Teal'),
    meeting.joinByLink('Heron', 'moderator', 'Mod Merlin'),
    meeting.joinByLink('Heron', 'panel', 'Panel Plover', { screen: 'phone' }),
    meeting.joinByLink('Heron', 'observer', 'Hall Heron', { screen: 'projector' }),
  ])
  await hall.page.goto(`${new URL(hall.page.url()).pathname}/screen`)
}, 600_000)
afterAll(() => meeting.close())

/** A part of the pane that is folded away. */
async function unfolded(page: Page, title: string): Promise<Locator> {
  const pane = await showPane(page, 'plan')
  const part = pane.locator('details').filter({ hasText: title })
  if ((await part.getAttribute('open')) === null) await part.locator('summary').first().click()
  return part
}
const comparator = (pane: Locator) =>
  pane.getByRole('row').filter({ hasText: words.comparator['air-conduction-aid'] }).first()

it('freezes a scenario and puts it on the main screen with one key, from the slider itself', async () => {
  const { page } = moderator
  const pane = await showPane(page, 'plan')
  const slider = pane.getByRole('slider', { name: whatIf.slider.contact, exact: true })
  await slider.focus()
  for (let step = 0; step < 12; step++) await page.keyboard.press('ArrowRight')
  await pane.getByRole('form', { name: whatIf.freeze.title }).waitFor()
  await page.keyboard.press('s')
  await isStored(page)
  await hall.page.getByText(/contact costs 6 decibels/i).waitFor()
  await hall.page.getByText(words.weakShort).waitFor()
})

it('opens the option that a question is about', async () => {
  const other = `${shared.deviceClass['active-middle-ear-implant']}, ${shared.couplingSite['stapes-head'].toLowerCase()}`
  await showPane(panel.page, 'floor')
  await panel.page.getByLabel(floor.ask.label).fill('Why not here?')
  await panel.page.getByRole('button', { name: floor.anchor.option, exact: true }).click()
  await panel.page.getByLabel(floor.anchor.chooseOption).selectOption({ label: other })
  await panel.page.getByRole('button', { name: floor.ask.submit, exact: true }).click()
  const row = rowOf(await showPane(team.page, 'floor'), 'Why not here?')
  await row.getByRole('button', { name: other }).click()
  const pane = await showPane(team.page, 'plan')
  await pane.getByText(words.notPlanned).waitFor()
  await expect
    .poll(() => team.page.evaluate(() => document.activeElement?.getAttribute('aria-label')))
    .toBe(words.title)
  await pane.getByRole('button', { name: words.backToPlan }).click()
})

it('follows a finding and the state of the ear canal that the team enters, on every page', async () => {
  const pane = await showPane(team.page, 'plan')
  await pane.getByText(planWords.rest).click()
  const theirs = await showPane(moderator.page, 'plan')
  await comparator(theirs).getByText(words.comparatorRefused['mould-not-tolerated']).waitFor()
  await pane.getByLabel(planWords.earCanal).selectOption({ label: planWords.earCanalState.open })
  await comparator(theirs).getByText(words.comparatorRefused['mould-not-tolerated']).waitFor({ state: 'detached' })
  const finding = 'Ligament of stapes (annular) 100 times as stiff'
  await pane.getByLabel(whatIf.found.add).selectOption({ label: finding })
  await isStored(team.page)
  await pane.getByRole('button', { name: whatIf.found.remove(finding) }).waitFor()
  await panel.page.goto(panel.page.url())
  const onPhone = await showPane(panel.page, 'plan')
  await onPhone.getByText(finding).first().waitFor()
  await pane.getByRole('button', { name: whatIf.found.remove(finding) }).click()
  await onPhone.getByText(finding).first().waitFor({ state: 'detached' })
})

it('takes a distance, says what is wrong with it, and corrects one that was entered', async () => {
  const part = await unfolded(team.page, fit.title)
  await part.getByRole('button', { name: fit.add }).click()
  const form = part.getByRole('form', { name: fit.add })
  await form.getByLabel(fit.place).selectOption({ label: fit.places['mastoid-depth'] })
  await form.getByLabel(fit.distance).fill('much')
  await form.getByLabel(fit.voxel).fill('0,15')
  await form.getByRole('button', { name: fit.submit }).click()
  await form.getByText(fit.wrong(0, 100)).waitFor()
  expect(await form.getByLabel(fit.voxel).inputValue()).toBe('0,15')
  await form.getByLabel(fit.distance).fill('12,3')
  await form.getByRole('button', { name: fit.submit }).click()
  const name = fit.correct(fit.places['mastoid-depth'])
  await part.getByText(/^12\.30 mm/).waitFor()
  await part.getByRole('button', { name }).click()
  const correction = part.getByRole('form', { name })
  expect(await correction.getByLabel(fit.distance).inputValue()).toBe('12.3')
  await correction.getByLabel(fit.distance).fill('11.4')
  await correction.getByRole('button', { name: fit.submitCorrection }).click()
  await part.getByText(/^11\.40 mm/).waitFor()
  const theirs = await unfolded(moderator.page, fit.title)
  await theirs.getByText(/^11\.40 mm/).waitFor()
})

it('seals a forecast for good, after asking, and another follows it', async () => {
  const part = await unfolded(team.page, sealed.title)
  const theirs = await unfolded(moderator.page, sealed.title)
  const standing = theirs.getByText(sealed.stands)
  await standing.first().waitFor()
  const before = await standing.count()
  await part.getByRole('button', { name: sealed.seal }).click()
  const dialog = team.page.getByRole('dialog', { name: sealed.confirmTitle })
  await dialog.getByRole('button', { name: messages.shell.cancel }).click()
  await dialog.waitFor({ state: 'hidden' })
  await part.getByRole('button', { name: sealed.seal }).click()
  await dialog.getByRole('button', { name: sealed.submit }).click()
  await isStored(team.page)
  // The one that counted until now is followed; as many count as before.
  await theirs.getByText(sealed.followed).waitFor()
  expect(await standing.count()).toBe(before)
  await theirs.getByText(sealed.teamOnly).waitFor()
  await theirs.getByRole('button', { name: sealed.show }).first().click()
  await hall.page.getByText(messages.screens.screen.sealedForecast).waitFor()
})
