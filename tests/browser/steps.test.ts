import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { usualSteps as usual } from '../../app/messages/en/usual-steps.ts'
import { join as frenchJoin } from '../../app/messages/fr/join.ts'
import { steps as frenchSteps } from '../../app/messages/fr/steps.ts'
import { usualSteps as frenchUsual } from '../../app/messages/fr/usual-steps.ts'
import { messages as french } from '../../app/messages/fr.ts'
import { languageCookie } from '../../app/messages/language.ts'
import {
  allSee,
  awayComplaints,
  isStored,
  Meeting,
  type Participant,
  paneOf,
  rowOf,
  screens as screensOf,
  seriousFaults,
  showPane,
} from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { board, decisions, screens, steps, words } = messages
let meeting: Meeting
let caseId: string
let moderator: Participant, team: Participant

beforeAll(async () => {
  meeting = await Meeting.open()
  caseId = await meeting.server.createCase('Case Heron')
  ;[moderator, team] = await Promise.all([
    meeting.joinCase(caseId, 'moderator', 'Mod Merlin'),
    meeting.joinCase(caseId, 'team', 'Team Teal'),
  ])
  await Promise.all([moderator, team].map(({ page }) => showPane(page, 'steps')))
}, 600_000)
afterAll(() => meeting.close())

const titleOf = (page: Page, title: string): Locator =>
  paneOf(page, 'steps').getByRole('button', { name: title, exact: true })
const row = (page: Page, title: string): Locator => rowOf(paneOf(page, 'steps'), title)
const question = (page: Page): Locator => page.getByRole('dialog', { name: steps.jumpTitle })

async function press(page: Page, title: string, ...keys: readonly string[]): Promise<void> {
  await titleOf(page, title).focus()
  for (const key of keys) await page.keyboard.press(key)
}

const isIn = (page: Page, title: string, state: keyof typeof words.stepState) =>
  row(page, title).getByText(words.stepState[state]).waitFor()

/** Opens a step, or leaves it open. */
async function open(page: Page, title: string): Promise<void> {
  if ((await titleOf(page, title).getAttribute('aria-expanded')) === 'false') await press(page, title, 'Enter')
}

describe('steps', () => {
  it('of an approach come with what has to be done before each', async () => {
    const { page } = team
    await paneOf(page, 'steps').getByRole('button', { name: steps.usual }).focus()
    await page.keyboard.press('Enter')
    const dialog = page.getByRole('dialog', { name: steps.usualTitle })
    await dialog.getByText(steps.usualStatus).waitFor()
    await dialog.getByRole('button', { name: steps.approach.skull }).focus()
    await page.keyboard.press('Enter')
    await allSee([moderator, team], (where) => titleOf(where, usual.function.title))
    await open(page, usual.marking.title)
    await row(page, usual.marking.title).getByText(steps.needOpen(usual.anaesthesia.title)).waitFor()
  })

  it('ask why one goes on before its prerequisite; Escape goes back and changes nothing', async () => {
    const { page } = team
    await press(page, usual.identity.title, 'n', 'n')
    await isIn(page, usual.identity.title, 'done')
    expect(await question(page).count()).toBe(0)
    await press(page, usual.marking.title, 'n')
    await question(page).getByText(usual.anaesthesia.title).waitFor()
    await question(page).getByText(steps.hazardOf(usual.anaesthesia.hazard)).waitFor()
    expect(await seriousFaults(page)).toEqual([])
    await page.keyboard.press('Enter')
    await question(page).getByText(steps.jumpMissing).waitFor()
    await page.keyboard.press('Escape')
    await question(page).waitFor({ state: 'hidden' })
    // The step has the focus again, and the key its meaning.
    await page.keyboard.press('n')
    await question(page).waitFor()
    await page.keyboard.press('Escape')
    await question(page).waitFor({ state: 'hidden' })
    expect(await row(page, usual.marking.title).getByText(words.stepState['under-way']).isVisible()).toBe(false)
  })

  it('keep the reason under the name of who gave it, for everybody, and go on', async () => {
    const { page } = team
    await press(page, usual.marking.title, 'n')
    await question(page).waitFor()
    await page.keyboard.type('Local anaesthesia alone: agreed with the patient.')
    await page.keyboard.press('Enter')
    await question(page).waitFor({ state: 'hidden' })
    for (const { page: where } of [team, moderator]) {
      await isIn(where, usual.marking.title, 'under-way')
      const step = row(where, usual.marking.title)
      await step.getByText('Local anaesthesia alone: agreed with the patient.').waitFor()
      await step.getByText(steps.wentOn(usual.anaesthesia.title)).waitFor()
      await step.getByText('Team Teal').waitFor()
      await step.getByText(steps.openNeeds(1)).waitFor()
    }
    await isStored(page)
    // It was asked and answered: whoever finishes the step is not asked again.
    await press(moderator.page, usual.marking.title, 'n')
    await isIn(team.page, usual.marking.title, 'done')
    expect(await question(moderator.page).count()).toBe(0)
    expect(await row(page, usual.marking.title).getByRole('button', { name: steps.remove }).count()).toBe(0)
  })

  it('show how long each took, and the operation as a whole, on the board and in theatre', async () => {
    const { page } = team
    await row(page, usual.marking.title)
      .getByText(steps.took(steps.minutes(0)))
      .waitFor()
    await paneOf(page, 'steps')
      .getByText(steps.inTotal(steps.minutes(0)))
      .waitFor()
    await press(page, usual.incision.title, 'n')
    await row(page, usual.incision.title)
      .getByText(steps.running(steps.minutes(0)))
      .waitFor()
    const theatre = await team.context.newPage()
    await theatre.goto(`/case/${caseId}/theatre`)
    await theatre.getByText(screens.theatre.inStep(screens.screen.minutes(0))).waitFor()
    await theatre.getByText(screens.theatre.inTotal(screens.screen.minutes(0))).waitFor()
    // The next step with what to look for in it.
    await theatre.getByText(usual.skullBed.title).waitFor()
    await theatre.getByText(usual.skullBed.check).waitFor()
    await theatre.getByText(usual.skullBed.hazard).waitFor()
    await press(page, usual.implant.title, 'n')
    await page.keyboard.type('Template fits')
    await page.keyboard.press('Enter')
    await question(page).waitFor({ state: 'hidden' })
    await theatre
      .getByText(screens.theatre.openBefore([screens.theatre.numbered(6, usual.coagulation.title)], 1))
      .waitFor()
    await theatre.close()
    await press(page, usual.implant.title, 'b')
  })

  it('let the team choose the prerequisites of a step, by keys alone', async () => {
    const { page } = team
    await press(page, usual.skullBed.title, 'e')
    const dialog = page.getByRole('dialog', { name: steps.editTitle })
    const choice = (number: number, title: string) =>
      dialog.getByRole('group', { name: steps.needs }).getByLabel(steps.numbered(number, title))
    expect(await choice(4, usual.incision.title).isChecked()).toBe(true)
    // What needs this step itself is not offered: neither would ever begin.
    expect(await choice(6, usual.coagulation.title).count()).toBe(0)
    await choice(4, usual.incision.title).focus()
    await page.keyboard.press('Space')
    await choice(1, usual.identity.title).focus()
    await page.keyboard.press('Space')
    await dialog.getByRole('button', { name: steps.save }).focus()
    await page.keyboard.press('Enter')
    await dialog.waitFor({ state: 'hidden' })
    // Its prerequisite is done, so nothing is asked.
    await press(moderator.page, usual.skullBed.title, 'n')
    await isIn(page, usual.skullBed.title, 'under-way')
    await row(moderator.page, usual.skullBed.title).getByText(steps.needsFirst).waitFor()
  })

  it('carry what is written while they are under way, and what is filed under them later', async () => {
    const { page } = team
    const pane = await showPane(page, 'decisions')
    await pane.getByRole('button', { name: decisions.note.add(decisions.kind.finding) }).click()
    await pane.getByRole('textbox', { name: decisions.editor.label(decisions.kind.finding) }).focus()
    await page.keyboard.type('Bone thinner than imaged.')
    const filed = row(moderator.page, usual.skullBed.title).getByRole('list', { name: steps.written })
    await filed.getByText('Bone thinner than imaged.').waitFor()
    await pane
      .getByLabel(decisions.step.label)
      .selectOption({ label: decisions.step.numbered(4, usual.incision.title) })
    await page.keyboard.press('Escape')
    await open(moderator.page, usual.incision.title)
    await row(moderator.page, usual.incision.title)
      .getByRole('list', { name: steps.written })
      .getByText('Bone thinner than imaged.')
      .waitFor()
    await filed.waitFor({ state: 'hidden' })
    // From the step to where it was written.
    await row(moderator.page, usual.incision.title).getByRole('button', { name: 'Bone thinner than imaged.' }).click()
    await paneOf(moderator.page, 'decisions').getByText('Bone thinner than imaged.').waitFor()
    await Promise.all([moderator, team].map(({ page: where }) => showPane(where, 'steps')))
  })
})

it('two pages without a link both keep their answers, and read the same when they are back', async () => {
  meeting.allow(awayComplaints)
  const both = [moderator, team] as const
  for (const { page } of both) await page.locator('[data-works-offline=true]').waitFor({ state: 'attached' })
  for (const { context, page } of both) {
    await context.setOffline(true)
    await page.getByText(board.away.offline.kept).waitFor()
  }
  for (const { name, page } of both) {
    await press(page, usual.skullClosure.title, 'n')
    await question(page).waitFor()
    await page.keyboard.type(`Closing early, says ${name}`)
    await page.keyboard.press('Enter')
    await question(page).waitFor({ state: 'hidden' })
    await isIn(page, usual.skullClosure.title, 'under-way')
  }
  for (const { context, page } of both) {
    await context.setOffline(false)
    await isStored(page)
  }
  for (const { page } of both) {
    await isIn(page, usual.skullClosure.title, 'under-way')
    for (const { name } of both)
      await row(page, usual.skullClosure.title).getByText(`Closing early, says ${name}`).waitFor()
  }
})

it('speaks French to whoever reads French, in the usual steps too', async () => {
  const guest = await meeting.visitor('Équipe Épervier')
  const { context, page } = guest
  await context.addCookies([{ name: languageCookie, value: 'fr', url: meeting.server.url }])
  const other = await meeting.server.createCase('Case Tern')
  const scope = { kind: 'case', id: other } as const
  await page.goto(await meeting.server.invite({ role: 'team', label: 'Épervier', scope }))
  await page.getByLabel(frenchJoin.name).fill('Équipe Épervier')
  await page.getByLabel(frenchJoin.affiliation).fill('CHU')
  await page.getByLabel(frenchJoin.agree).check()
  await page.getByRole('button', { name: frenchJoin.joinAs(french.words.role.team) }).click()
  await page.getByRole('navigation', { name: french.board.panes }).waitFor()
  const pane = page.getByRole('region', { name: frenchSteps.paneTitle, exact: true })
  if (!(await pane.isVisible())) await page.getByRole('button', { name: french.board.paneShort.steps }).first().click()
  await pane.getByRole('button', { name: frenchSteps.usual }).click()
  await page.getByText(frenchSteps.usualStatus).waitFor()
  await page.getByRole('button', { name: frenchSteps.approach['round-window'] }).click()
  await pane.getByRole('button', { name: frenchUsual.windowNiche.title, exact: true }).focus()
  await page.keyboard.press('n')
  const asked = page.getByRole('dialog', { name: frenchSteps.jumpTitle })
  await asked.getByText(frenchUsual.posteriorTympanotomy.title).waitFor()
  await asked.getByText(frenchSteps.hazardOf(frenchUsual.posteriorTympanotomy.hazard)).waitFor()
  await page.keyboard.type('Niche déjà exposée')
  await page.keyboard.press('Enter')
  await asked.waitFor({ state: 'hidden' })
  await pane.getByText(frenchSteps.wentOn(frenchUsual.posteriorTympanotomy.title)).waitFor()
  await pane.getByText('Niche déjà exposée').waitFor()

  // The longest check, and the one with the most before it: nothing of them is cut in theatre.
  const theatre = await context.newPage()
  await theatre.setViewportSize(screensOf.projector)
  await theatre.goto(`/case/${other}/theatre`)
  for (const { title, check, hazard } of [frenchUsual.couplingTest, frenchUsual.actuator]) {
    await pane.getByRole('button', { name: title, exact: true }).focus()
    await page.keyboard.press('n')
    await asked.waitFor()
    await page.keyboard.type('Essai')
    await page.keyboard.press('Enter')
    await asked.waitFor({ state: 'hidden' })
    await theatre.getByRole('heading', { name: title }).waitFor()
    for (const text of [check, hazard]) await theatre.getByText(text, { exact: true }).waitFor()
    await expect.poll(() => theatre.locator('[data-cut=true]').count()).toBe(0)
    await page.keyboard.press('b')
  }
})
