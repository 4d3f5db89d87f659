import type { Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import {
  Meeting,
  type Meeting as OpenMeeting,
  overflowPx,
  type Participant,
  seriousFaults,
} from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { followUp, words, board, hearing, decisions } = messages
let meeting: OpenMeeting
beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
})
afterAll(() => meeting.close())

const people: Participant[] = []
afterEach(async () => {
  for (const { context } of people.splice(0)) await context.close()
})

/** Somebody of the case with its follow-up open. */
async function follow(caseId: string, role: 'moderator' | 'team' | 'panel', name: string, screen?: 'laptop' | 'phone') {
  const person = await meeting.joinCase(caseId, role, name, { screen: screen ?? 'laptop' })
  people.push(person)
  await person.page.goto(`${meeting.server.url}/case/${caseId}/follow-up`)
  await person.page.getByRole('heading', { name: followUp.visits.title, exact: true }).waitFor()
  return person.page
}

const pane = (page: Page, name: string): Locator => page.getByRole('region', { name, exact: true })
/** A state stands after its sign. */
const signed = (state: string) => new RegExp(`(^|\\s)${state}$`)
const stored = (page: Page) => page.getByRole('banner').getByText(board.storedState.stored).waitFor()

describe('the follow-up of an ear that was operated on', () => {
  let team: Page
  let panel: Page
  beforeEach(async () => {
    ;[team, panel] = await Promise.all([
      follow('demo-curlew', 'team', 'Team Teal'),
      follow('demo-curlew', 'panel', 'Panel Pipit', 'phone'),
    ])
  })

  it('shows a contingency that the last visit meets, and everybody sees at once what was done about it', async () => {
    const row = (page: Page) =>
      pane(page, followUp.watch.title).getByRole('listitem').filter({ hasText: 'Fixation has come back' })
    await row(team).getByText(followUp.watch.metBy('12 months')).waitFor()
    await row(panel).getByText(followUp.watch.metBy('12 months')).waitFor()
    expect(await row(panel).getByRole('button').count()).toBe(0)
    await row(team).getByRole('button', { name: followUp.watch.markMet }).click()
    await row(panel).getByText(signed(words.contingencyState.met)).first().waitFor()
    await row(team).getByRole('button', { name: followUp.watch.act, exact: true }).click()
    await row(team).getByRole('button', { name: followUp.save, exact: true }).click()
    await row(team).getByText(followUp.watch.missingText).waitFor()
    await team.getByLabel(followUp.watch.what).fill('Revision planned, coupling to the head of the stapes')
    await team.getByLabel(followUp.watch.next).selectOption({ label: followUp.watch.nextKind.plan })
    await row(team).getByRole('button', { name: followUp.save, exact: true }).click()
    await row(panel).getByText('Revision planned, coupling to the head of the stapes').waitFor()
    await row(panel).getByText(followUp.watch.leadsTo(followUp.watch.nextKind.plan)).waitFor()
  })

  it('answers a deferred question from the numbers of the visit, once a person confirms them', async () => {
    const item = (page: Page) => pane(page, followUp.items.title).getByRole('listitem')
    const answer = item(team).getByLabel(followUp.items.outcome)
    expect(await answer.inputValue()).toContain('6 kHz 70 dB HL (before 75 dB HL)')
    await item(team).getByRole('button', { name: followUp.items.confirm }).click()
    await item(panel).getByText('8 kHz 80 dB HL').waitFor()
    await item(panel).getByText(signed(words.visitItemState.done)).first().waitFor()
    await stored(team)
    await panel.goto(`${meeting.server.url}/case/demo-curlew`)
    await panel
      .getByRole('navigation', { name: board.panes })
      .getByRole('button', { name: board.paneShort.floor })
      .click()
    await panel.getByText(words.questionState.answered, { exact: false }).first().waitFor()
  })

  it('holds the result against the sealed forecast and says what explains the miss', async () => {
    const result = pane(team, followUp.result.title)
    await result
      .getByRole('row', { name: /^500 Hz/ })
      .getByText(followUp.result.outside)
      .waitFor()
    await result
      .getByRole('region', { name: followUp.result.explain })
      .getByText(/Fits best/)
      .waitFor()
    await pane(team, followUp.visits.title)
      .getByRole('button', { name: /3 months/ })
      .click()
    await result.getByText(/No scenario explains it better than chance/).waitFor()
  })

  it('reads on a phone and without serious faults', async () => {
    expect(await overflowPx(panel)).toBe(0)
    for (const page of [team, panel]) expect(await seriousFaults(page)).toEqual([])
  })
})

it('takes a case from its operation through three visits, with the day of each checked', async () => {
  const team = await follow('demo-plover', 'team', 'Team Tern')
  const panel = await follow('demo-plover', 'panel', 'Panel Petrel')
  const visits = pane(team, followUp.visits.title)
  await visits.getByLabel(followUp.operation.day).fill('2026-01-05')
  await visits.getByRole('button', { name: followUp.save, exact: true }).click()
  await visits.getByRole('button', { name: followUp.visits.planAgain }).click()
  await pane(panel, followUp.visits.title).getByText(followUp.visits.plannedFor('16 Feb 2026')).waitFor()
  const levels = { 'First fitting': '30', '1 month': '35', '3 months': '50' }
  for (const [visit, day] of [
    ['First fitting', '2026-02-16'],
    ['1 month', '2026-03-16'],
    ['3 months', '2026-05-18'],
  ] as const) {
    await visits.getByRole('button', { name: new RegExp(`^${visit}`) }).click()
    const details = pane(team, visit)
    await details.getByLabel(followUp.visit.hold).fill('2026-01-04')
    await details.getByRole('button', { name: followUp.visit.holdNow }).click()
    await details.getByText(/The operation was on/).waitFor()
    await details.getByLabel(followUp.visit.hold).fill(day)
    await details.getByRole('button', { name: followUp.visit.holdNow }).click()
    await details.getByText(signed(words.visitState.held)).first().waitFor()
    await pane(team, followUp.tests.title).getByRole('button', { name: followUp.tests.enter }).click()
    await team.getByRole('button', { name: hearing.newTest.submit }).click()
    await enterRow(team, levels[visit])
  }
  await pane(team, followUp.watch.title).getByRole('button', { name: followUp.wish.open }).click()
  await team.getByLabel(followUp.wish.label).fill('test the magnet if the benefit goes')
  await team.getByRole('radio').first().waitFor()
  await team.keyboard.press('Enter')
  const row = (page: Page) =>
    pane(page, followUp.watch.title).getByRole('listitem').filter({ hasText: 'Test the magnet' })
  await row(panel).getByText(followUp.watch.metBy('3 months')).waitFor()
  expect(await row(panel).getByText(decisions.contingency.ifWord, { exact: true }).count()).toBe(1)
})

/** Aided thresholds at 0.5, 1, 2 and 4 kHz, typed into the grid as somebody with a keyboard does. */
async function enterRow(page: Page, level: string): Promise<void> {
  for (const hz of [500, 1000, 2000, 4000]) {
    const cell = pane(page, followUp.tests.title)
      .getByRole('textbox', { name: new RegExp(`${hz} Hz`) })
      .first()
    await cell.fill(level)
    await cell.press('Enter')
  }
  await stored(page)
}
