import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Theme, themeCookie } from '../../app/theme/theme.ts'
import { Meeting, overflowPx, type Participant, paneOf, seriousFaults, showPane } from '../support/browser.ts'
import { createLongCase } from '../support/long-case.ts'
import { messages } from '../support/messages.ts'

const { hearing, measures, speech } = messages
let meeting: Meeting
let team: Participant
let phone: Participant

beforeAll(async () => {
  meeting = await Meeting.open()
  const caseId = await createLongCase(meeting.server, 'Case Crane')
  ;[team, phone] = await Promise.all([
    meeting.joinCase(caseId, 'team', 'Team Teal'),
    meeting.joinCase(caseId, 'panel', 'Panel Pipit', { screen: 'phone' }),
  ])
  await Promise.all([team, phone].map(({ page }) => showPane(page, 'hearing')))
}, 600_000)
afterAll(() => meeting.close())

const pane = (page: Page): Locator => paneOf(page, 'hearing')
const region = (page: Page, name: string): Locator => pane(page).getByRole('region', { name, exact: true })
const finding = (page: Page, rule: string): Locator =>
  region(page, measures.findings.heading).locator(`[data-finding="${rule}"]`)
const measure = (page: Page, id: string): Locator => pane(page).locator(`[data-measure="${id}"]`)
const airRow = `${hearing.grid.row.air} ${hearing.grid.unmasked}`
const cell = (page: Page, hz: number): Locator =>
  pane(page)
    .getByRole('grid')
    .getByRole('textbox', { name: hearing.grid.cell(airRow, hz) })

/** Speech tests are mounted when somebody comes near them. */
async function comeNearSpeech(page: Page): Promise<void> {
  // In one step: what waits there may be mounted between looking for it and going there.
  await pane(page).evaluate((element) => element.querySelector('[data-when-near]')?.scrollIntoView())
  await region(page, speech.heading).waitFor()
}

async function typeThreshold(page: Page, hz: number, level: number): Promise<void> {
  await cell(page, hz).focus()
  await page.keyboard.type(String(level))
  await page.keyboard.press('Enter')
}

it('shows the average that follows from a threshold in the very next frame', async () => {
  const { page } = team
  const average = measure(page, 'air-who').locator('[data-ear="right"]').first()
  // by hand: 55, 60, 65, 65 dB HL at 0.5, 1, 2, 4 kHz before; 1 kHz 80 after
  await expect.poll(() => average.textContent()).toContain(measures.level(61.25, false))
  await page.evaluate(() =>
    addEventListener('keydown', () =>
      requestAnimationFrame(() => {
        document.body.dataset.inFrame =
          document.querySelector('[data-measure="air-who"] [data-ear="right"]')?.textContent ?? ''
      }),
    ),
  )
  await typeThreshold(page, 1000, 80)
  await expect.poll(() => page.evaluate(() => document.body.dataset.inFrame)).toContain(measures.level(66.25, false))
  await typeThreshold(page, 1000, 60)
})

it('raises a finding by a threshold, marks it on its point, and opens it from there for everybody', async () => {
  const { page } = team
  await typeThreshold(page, 2000, 0)
  const worse = finding(page, 'bone-worse-than-air')
  await worse.waitFor()
  await finding(phone.page, 'bone-worse-than-air').waitFor()

  const mark = pane(page).locator('[data-finding-mark^="bone-worse-than-air right"][data-frequency="2000"]')
  await pane(page).getByRole('radio', { name: hearing.modes.look }).check()
  await mark.scrollIntoViewIfNeeded()
  await mark.click({ force: true })
  await worse.getByText(measures.findings.whatToDo, { exact: true }).waitFor()
  await worse.getByText(/Bone 20 dB HL, air 0 dB HL/).waitFor()
  await worse.getByText(measures.howWords.source).first().waitFor()
  await worse.getByRole('button', { name: measures.findings.show('2 kHz') }).click()
  await typeThreshold(page, 2000, 65)
  await expect.poll(() => finding(page, 'bone-worse-than-air').count()).toBe(0)
})

it('tells how a number was computed: inputs, formula, source', async () => {
  const { page } = phone
  const average = measure(page, 'air-who')
  await average.getByText(measures.how).locator('xpath=ancestor::summary').click()
  await average.getByText('(55 + 60 + 65 + 65) / 4 = 61.25 dB HL').waitFor()
  await average.getByText(/World Report on Hearing/).waitFor()
})

it('quotes first by the convention that a person chose, and remembers it', async () => {
  const { page } = phone
  const choice = region(page, measures.headings.quoted).getByLabel(measures.quoteBy)
  await choice.selectOption({ label: measures.conventionNames.biap })
  const first = region(page, measures.headings.quoted).locator('[data-measure]').first()
  await first.getByText(measures.conventions['air-biap']).waitFor()
  await page.reload()
  await showPane(page, 'hearing')
  await first.getByText(measures.conventions['air-biap']).waitFor()
  await choice.selectOption({ label: measures.conventionNames.who })
  await measure(team.page, 'air-who').first().waitFor()
})

it('holds a repeat at 1 kHz against the threshold, and refuses what is no level', async () => {
  const { page } = team
  const repeat = pane(page).getByLabel(hearing.repeat.label)
  await repeat.fill('NR')
  await repeat.press('Enter')
  await pane(page)
    .getByRole('alert')
    .filter({ hasText: hearing.repeat.fault({ code: 'not-heard' }) })
    .waitFor()
  await repeat.fill('45')
  await repeat.press('Enter')
  await finding(phone.page, 'retest-1-khz')
    .getByText(/do not agree/)
    .waitFor()
  await repeat.fill('')
  await repeat.press('Enter')
  await expect.poll(() => finding(phone.page, 'retest-1-khz').count()).toBe(0)
})

it('takes a word score by the keyboard and shows it with its interval', async () => {
  const { page } = team
  await page.locator('body').press('Escape')
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur())
  await page.keyboard.press('l')
  await page.keyboard.type('25')
  await page.keyboard.press('Enter')
  await pane(page).getByText(speech.faults['more-than-items'](20)).waitFor()
  await page.keyboard.press('Control+A')
  await page.keyboard.type('13')
  await page.keyboard.press('Enter')
  await comeNearSpeech(phone.page)
  for (const where of [page, phone.page]) {
    const score = region(where, speech.heading)
      .getByRole('listitem')
      .filter({ hasText: speech.score(13, 20) })
      .first()
    await score.getByText(speech.percent(0.65), { exact: true }).waitFor()
    // R 4.2.2: prop.test(13, 20, correct = FALSE) gives 43.3 to 81.9 %
    await score.getByText(speech.interval(0.433, 0.819)).first().waitFor()
    await score.getByText(speech.standIn).waitFor()
  }
  await page.keyboard.press('Escape')
})

it('takes a speech reception threshold by the keyboard and holds it against the tones of the day', async () => {
  const { page } = team
  await page.keyboard.press('h')
  await page.keyboard.type('200')
  await page.keyboard.press('Enter')
  await pane(page).getByText(speech.faults['out-of-range'](-20, 130)).waitFor()
  await page.keyboard.press('Control+A')
  await page.keyboard.type('20')
  await pane(page).getByLabel(speech.fields.performedOn).fill('2025-06-12')
  await page.keyboard.press('Enter')
  // tones 55, 60 and 65 dB HL, 60 on average
  const better = finding(phone.page, 'speech-better-than-tones')
  await better.locator('summary').click()
  await better.getByText(/Speech reception threshold 20 dB HL, .* 60 dB HL: 40 dB better/).waitFor()
  await measure(phone.page, 'reception-unaided').getByText(measures.level(20, false)).waitFor()
  await page.keyboard.press('Escape')
})

it('lays the age norm and speech over the chart, each with its legend, and takes them away', async () => {
  for (const { page } of [team, phone]) {
    for (const name of ['age', 'speech'] as const)
      await pane(page).getByRole('checkbox', { name: measures.overlays[name], exact: true }).check()
    await pane(page)
      .getByText(measures.overlays.ageLegend('2017', 'women', 54))
      .waitFor()
    await pane(page).getByText(measures.overlays.speechLegend).waitFor()
    await pane(page).getByRole('checkbox', { name: measures.overlays.speech, exact: true }).uncheck()
    await expect.poll(() => pane(page).getByText(measures.overlays.speechLegend).count()).toBe(0)
  }
})

describe.each<Theme>(['clinic', 'theatre'])('in the %s theme', (theme) => {
  it.each(['desk', 'phone'] as const)('measures, findings and forms have no serious fault at the %s', async (where) => {
    const { page, context } = where === 'desk' ? team : phone
    await context.addCookies([{ name: themeCookie, value: theme, url: meeting.server.url }])
    await page.reload()
    await showPane(page, 'hearing')
    await comeNearSpeech(page)
    await region(page, measures.headings.quoted).getByText(measures.otherConventions).click()
    await measure(page, 'air-who').locator('summary').first().click()
    await finding(page, 'speech-better-than-tones').locator('summary').click()
    if (where === 'desk') await pane(page).getByRole('button', { name: speech.enterReception }).click()
    expect(await seriousFaults(page)).toEqual([])
    expect(await overflowPx(page)).toBe(0)
  })
})
