import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { awayComplaints, isStored, Meeting, type Participant } from '../support/browser.ts'
import { CountedKeys } from '../support/counted-keys.ts'
import { messages } from '../support/messages.ts'
import { reach } from '../support/reached-by-keys.ts'

/** A visit is entered in a consulting room: by the keyboard, over a link that comes and goes. */
const { followUp, words, board, hearing, speech } = messages
let meeting: Meeting
let team: Participant, colleague: Participant

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  meeting.allow(awayComplaints)
  ;[team, colleague] = await Promise.all([
    meeting.joinCase('demo-plover', 'team', 'Team Tern', { screen: 'laptop' }),
    meeting.joinCase('demo-plover', 'team', 'Team Teal', { screen: 'laptop' }),
  ])
  for (const { page } of [team, colleague]) {
    await page.goto('/case/demo-plover/follow-up')
    await page.locator('[data-works-offline=true]').waitFor({ state: 'attached' })
  }
}, 600_000)
afterAll(() => meeting.close())

const pane = (page: Page, name: string): Locator => page.getByRole('region', { name, exact: true })
const signed = (state: string) => new RegExp(`(^|\\s)${state}$`)
const visitIn = (page: Page, visit: string) =>
  pane(page, followUp.visits.title).getByRole('button', { name: new RegExp(`^${visit}`) })
const button = (within: Locator, name: string) => within.getByRole('button', { name, exact: true })

/** A calendar day as it is typed into a field of this browser: month, day, year. */
const typedDay = (day: string) => day.replace(/^(\d{4})-(\d\d)-(\d\d)$/, '$2$3$1')

it('enters a whole visit by the keyboard alone', async () => {
  const { page } = team
  const keys = new CountedKeys(page)
  const go = async (target: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab') => void (await reach(page, target, key))
  const visits = pane(page, followUp.visits.title)
  await go(visits.getByLabel(followUp.operation.day))
  await keys.type(typedDay('2026-01-05'))
  await keys.press('Enter')
  await go(button(visits, followUp.visits.planAgain))
  await keys.press('Enter')
  await visits.getByText(followUp.visits.plannedFor('16 Feb 2026')).waitFor()
  await go(visitIn(page, 'First fitting'), 'Shift+Tab')
  await keys.press('Enter')

  const details = pane(page, 'First fitting')
  await go(details.getByLabel(followUp.visit.hold))
  await keys.type(typedDay('2026-02-16'))
  await keys.press('Enter')
  await details.getByText(signed(words.visitState.held)).first().waitFor()
  await go(details.getByLabel(followUp.visit.addComplication))
  await keys.press('ArrowDown', 'ArrowDown')
  await go(button(details, followUp.visit.add))
  await keys.press('Enter')
  await go(details.getByLabel(followUp.visit.sought))
  await keys.press('Space')
  await go(details.getByLabel(followUp.visit.settings))
  await keys.press('ArrowDown', 'ArrowDown', 'ArrowDown')
  await go(details.getByLabel(followUp.visit.hours))
  await keys.type('9,5')
  await go(details.getByLabel(followUp.visit.settingsWords))
  await keys.type('More gain above 2 kHz')
  await go(details.getByLabel(followUp.visit.findings))
  await keys.type('Quiet ear, no pain')
  await go(button(details, followUp.save))
  await keys.press('Enter')

  const tests = pane(page, followUp.tests.title)
  await go(button(tests, followUp.tests.enter))
  await keys.press('Enter')
  await go(page.getByRole('button', { name: hearing.newTest.submit }))
  await keys.press('Enter')
  await go(tests.getByRole('textbox').first())
  const at500 = tests.getByRole('textbox', { name: /\b500 Hz/ }).first()
  while (!(await at500.evaluate((element) => element === document.activeElement))) await keys.press('ArrowRight')
  for (const level of ['30', '30', '35', '40']) {
    await keys.type(level)
    await keys.press('Enter')
  }
  await go(button(tests, followUp.tests.enterSpeech), 'Shift+Tab')
  await keys.press('Enter')
  await go(tests.getByLabel(speech.fields.right, { exact: true }))
  await keys.type('18')
  await keys.press('Enter')
  await tests.getByText(/18 of 20 at 65 dB SPL in quiet/).waitFor()
  await isStored(page)

  await visitIn(colleague.page, 'First fitting').click()
  const seen = pane(colleague.page, 'First fitting')
  const second = Object.values(followUp.visit.complication)[1] ?? ''
  await seen.getByText(signed(second)).waitFor()
  expect(await seen.getByLabel(followUp.visit.sought).isChecked()).toBe(true)
  expect(await seen.getByLabel(followUp.visit.settings).inputValue()).toBe('fitted-anew')
  expect(await seen.getByLabel(followUp.visit.hours).inputValue()).toBe('9.5')
  expect(await seen.getByLabel(followUp.visit.findings).inputValue()).toBe('Quiet ear, no pain')
  await pane(colleague.page, followUp.tests.title)
    .getByText(/18 of 20/)
    .waitFor()
})

it('takes a contingency phrased by the keyboard, from the head of the page, in far less than a minute', async () => {
  const { page } = team
  await page.reload()
  const keys = new CountedKeys(page)
  const contingencies = pane(page, followUp.watch.title)
  let stops = 0
  await keys.action('phrase a contingency', async () => {
    stops += await reach(page, page.getByRole('link', { name: /contingenc(y|ies) met/ }))
    await keys.press('Enter')
    stops += await reach(page, button(contingencies, followUp.wish.open))
    await keys.press('Enter')
    await keys.type('revise to the stapes if fixation recurs')
    await contingencies.getByRole('radio').first().waitFor()
    await keys.press('Enter')
    await contingencies.getByRole('listitem').filter({ hasText: 'Revise to the stapes' }).waitFor()
  })
  const [counted] = keys.actions
  expect(counted?.keys).toEqual(['Enter', 'Enter', 'Enter'])
  expect(counted?.typed).toBe(39)
  // 61 strokes when this was written: half a minute at two strokes a second, as somebody types who never learned to.
  expect(stops + 3 + 39).toBeLessThanOrEqual(64)
  expect(counted?.seconds).toBeLessThan(60)
})

describe('a link that is lost while a visit is entered', () => {
  it('loses nothing, says so, and shows everybody what was written once it is back', async () => {
    const { page, context } = team
    await visitIn(page, '1 month').click()
    await visitIn(colleague.page, '1 month').click()
    await context.setOffline(true)
    await page.getByText(board.away.offline.kept).waitFor()
    const details = pane(page, '1 month')
    await details.getByLabel(followUp.visit.hold).fill('2026-03-16')
    await button(details, followUp.visit.holdNow).click()
    await details.getByLabel(followUp.visit.findings).fill('Written without a link, call 0123 456 7890')
    await button(details, followUp.save).click()
    // What looks like a telephone number is asked about also without a link.
    await page.getByRole('dialog').getByRole('button', { name: messages.postGuard.postAnyway }).click()
    await page.getByRole('banner').getByText(board.storedState['offline-kept-here']).waitFor()
    await button(pane(page, followUp.tests.title), followUp.tests.enter).click()
    await page.getByRole('button', { name: hearing.newTest.submit }).click()
    await pane(page, followUp.tests.title)
      .getByRole('textbox', { name: /1000 Hz/ })
      .first()
      .fill('45')
    await pane(page, followUp.tests.title)
      .getByRole('textbox', { name: /1000 Hz/ })
      .first()
      .press('Enter')
    const theirs = pane(colleague.page, '1 month').getByLabel(followUp.visit.findings)
    expect(await theirs.inputValue()).toBe('')
    await context.setOffline(false)
    await isStored(page)
    await expect.poll(() => theirs.inputValue()).toMatch(/^Written without a link/)
    await pane(colleague.page, followUp.tests.title).getByRole('cell', { name: /45/ }).first().waitFor()
  })

  it('keeps what was typed and not written down over a look at another visit, and over a reload', async () => {
    const { page } = team
    await visitIn(page, '3 months').click()
    await pane(page, '3 months').getByLabel(followUp.visit.findings).fill('Half a sent')
    await visitIn(page, '1 month').click()
    await visitIn(page, '3 months').click()
    const findings = pane(page, '3 months').getByLabel(followUp.visit.findings)
    expect(await findings.inputValue()).toBe('Half a sent')
    // The visit stands in the address.
    await page.reload()
    await findings.waitFor()
    expect(await findings.inputValue()).toBe('Half a sent')
    await button(pane(page, '3 months'), followUp.save).click()
    await isStored(page)
    // The visit stands in the address.
    await page.reload()
    await findings.waitFor()
    expect(await findings.inputValue()).toBe('Half a sent')
    expect(await button(pane(page, '3 months'), followUp.save).count()).toBe(0)
  })

  it('sends everything again after the server was killed in mid-entry', async () => {
    const { page } = team
    await visitIn(page, '3 months').click()
    const details = pane(page, '3 months')
    await details.getByLabel(followUp.visit.hold).fill('2026-05-18')
    await button(details, followUp.visit.holdNow).click()
    await details.getByText(signed(words.visitState.held)).first().waitFor()
    await meeting.server.kill9()
    await details.getByLabel(followUp.visit.note).fill('Typed while the server was dead')
    await button(details, followUp.save).click()
    await meeting.server.start()
    await isStored(page)
    await visitIn(colleague.page, '3 months').click()
    const theirs = pane(colleague.page, '3 months')
    await theirs.getByText(signed(words.visitState.held)).first().waitFor()
    await expect.poll(() => theirs.getByLabel(followUp.visit.note).inputValue()).toBe('Typed while the server was dead')
  })
})
