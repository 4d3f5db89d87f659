import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { forecast as words } from '../../app/messages/en/forecast.ts'
import { forecastRecords } from '../../app/messages/en/forecast-records.ts'
import { whatIf } from '../../app/messages/en/what-if.ts'
import { words as shared } from '../../app/messages/en/words.ts'
import { documentName } from '../../lib/board/documents.ts'
import { changePlan } from '../../lib/board/edits/plan.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import { isStored, Meeting, overflowPx, type Participant, seriousFaults, showPane } from '../support/browser.ts'
import { LightClient } from '../support/light-client.ts'

let meeting: Meeting
beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
})
afterAll(() => meeting.close())

const roundWindow = `${shared.deviceClass['active-middle-ear-implant']}, ${shared.couplingSite['round-window'].toLowerCase()}`
const slider = (pane: Locator, name: string) => pane.getByRole('slider', { name, exact: true })
const typed = (pane: Locator, name: string) => pane.getByRole('spinbutton', { name: whatIf.typed(name), exact: true })
const sentence = (pane: Locator) => pane.locator('blockquote')

/** The expected aided mean where it is shown: in the first tile and in the table of options; and the line on the chart. */
async function shown(page: Page, pane: Locator) {
  const tile = `${words.quantity.aidedThreshold}, ${words.fourTone}: `
  const option = `${words.quantity.aidedThreshold}, ${roundWindow}: `
  return {
    tile: await numberBeside(pane, tile),
    option: await numberBeside(pane, option),
    line: await page.locator('[data-kind="forecast"] path').last().getAttribute('d'),
  }
}

async function numberBeside(pane: Locator, name: string): Promise<number> {
  const label = await pane.locator(`button[aria-label^="${name}"]`).first().getAttribute('aria-label')
  return Number(label?.slice(name.length).match(/^\d+/)?.[0])
}

describe('the forecast pane', () => {
  it('moves table, chart and sentence together with a slider, by the keyboard alone', async () => {
    const { page } = await meeting.joinByLink('Heron', 'team', 'Slider Stork')
    const pane = await showPane(page, 'plan')
    const before = await shown(page, pane)
    expect(before.tile).toBe(before.option)
    await slider(pane, whatIf.slider.contact).focus()
    for (let step = 0; step < 20; step++) await page.keyboard.press('ArrowRight')
    await expect.poll(() => typed(pane, whatIf.slider.contact).inputValue()).toBe('10')
    const after = await shown(page, pane)
    expect(after.tile).toBe(after.option)
    expect(after.tile).toBeGreaterThan(before.tile + 4)
    expect(after.line).not.toBe(before.line)
    const mean = pane.getByRole('row', { name: new RegExp(`^${whatIf.mean}`) }).locator('b')
    const change = (await mean.textContent())?.replace('+', '')
    expect(await sentence(pane).textContent()).toMatch(
      new RegExp(`^If the contact costs 10 decibels, .* ${change} decibels worse.*estimate`),
    )
    await pane.getByRole('button', { name: whatIf.reset }).click()
    expect(await shown(page, pane)).toEqual(before)
    expect(await sentence(pane).count()).toBe(0)
  })

  it('takes a typed value, and says when one is out of its domain', async () => {
    const { page } = await meeting.joinByLink('Heron', 'team', 'Typing Tern')
    const pane = await showPane(page, 'plan')
    const value = typed(pane, whatIf.slider.contact)
    await value.fill('6')
    await expect.poll(() => slider(pane, whatIf.slider.contact).inputValue()).toBe('6')
    await value.fill('60')
    await expect.poll(() => value.getAttribute('aria-invalid')).toBe('true')
    expect(await sentence(pane).textContent()).toContain('6 decibels')
  })

  it('gives a reason and no number where findings and scenario contradict each other', async () => {
    const { page } = await meeting.joinByLink('Heron', 'team', 'Contrary Crane')
    const pane = await showPane(page, 'plan')
    await pane.getByLabel(whatIf.slider.fixationAt).selectOption('incus')
    const reason = words.refusal['findings-contradict']['gone-yet-changed']('incus')
    await expect.poll(() => sentence(pane).textContent()).toContain(`there is no estimate. ${reason}`)
    expect(await pane.getByText(words.refusalShort['findings-contradict']('incus')).count()).toBeGreaterThan(5)
    expect(await slider(pane, whatIf.slider.fixation).isVisible()).toBe(true)
  })

  it('lays three options on the chart, each with its letter, and no fourth', async () => {
    const { page } = await meeting.joinByLink('Heron', 'team', 'Layer Lark')
    const pane = await showPane(page, 'plan')
    const lay = pane.getByRole('button', { name: new RegExp(`^${words.layNamed('')}`) })
    const possible = (await lay.all()).slice(2, 6)
    for (const button of possible.slice(0, 3)) await button.click()
    for (const letter of ['A', 'B', 'C']) await pane.locator(`[data-band="option.${letter}"]`).waitFor()
    expect(await possible[3]?.isDisabled()).toBe(true)
  })

  it('moves through the table by arrow keys, opens a reason and gives the focus back', async () => {
    const { page } = await meeting.joinByLink('Heron', 'team', 'Keys Kite')
    const pane = await showPane(page, 'plan')
    const first = pane.getByRole('region', { name: words.options }).locator('[data-cell][tabindex="0"]')
    await first.focus()
    await page.keyboard.press('ArrowRight')
    await page.keyboard.press('ArrowDown')
    const name = await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))
    await page.keyboard.press('Enter')
    await page.getByRole('dialog').getByText(words.why.sourcesTitle).waitFor()
    await page.keyboard.press('Escape')
    await page.getByRole('dialog').waitFor({ state: 'hidden' })
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe(name)
  })

  it('freezes a scenario, and opens it again in the sliders of somebody else', async () => {
    const { page } = await meeting.joinByLink('Heron', 'team', 'Freezing Finch')
    const pane = await showPane(page, 'plan')
    await typed(pane, whatIf.slider.contact).fill('7')
    await pane.getByLabel(whatIf.freeze.name).fill('Seven decibels are lost')
    await pane.getByRole('button', { name: whatIf.freeze.submit, exact: true }).click()
    await isStored(page)
    const other = await meeting.joinByLink('Heron', 'moderator', 'Mod Magpie')
    const theirs = await showPane(other.page, 'plan')
    await theirs.getByRole('button', { name: whatIf.frozen.openNamed('Seven decibels are lost') }).click()
    await expect.poll(() => typed(theirs, whatIf.slider.contact).inputValue()).toBe('7')
    expect(await sentence(theirs).textContent()).toContain('7 decibels')
  })

  it('refuses a profile without limits, naming the place', async () => {
    const { page } = await meeting.joinByLink('Heron', 'team', 'Profile Plover')
    const pane = await showPane(page, 'plan')
    const { profiles } = forecastRecords
    await pane.getByText(profiles.title, { exact: true }).click()
    await pane.getByRole('button', { name: profiles.add }).click()
    await pane.getByLabel(profiles.text).fill('{"units":{"level":"dB SPL","gain":"dB","length":"mm","mass":"mg"}}')
    await pane.getByText('units.level').waitFor()
    await pane.getByText('profile', { exact: true }).waitFor()
    expect(await pane.getByRole('button', { name: profiles.submit }).isDisabled()).toBe(true)
  })
})

describe('a case without a current test', () => {
  it('has a reason and no number, and no sliders', async () => {
    const { page } = await meeting.joinCase(await plannedCase(), 'team', 'Empty Egret')
    const pane = await showPane(page, 'plan')
    await pane.getByText(words.refusal['no-current-test'](shared.earShort.right)).first().waitFor()
    expect(await pane.getByRole('slider').count()).toBe(0)
    expect(await pane.locator('[data-cell^="0.0"]').count()).toBe(0)
  })
})

/** A case with a plan and nothing measured. */
async function plannedCase(): Promise<string> {
  const { server } = meeting
  const caseId = await server.createCase('Case Egret')
  const { cookie, participant } = await server.join('team', 'Planner')
  const client = await LightClient.join(`${server.syncUrl}/${documentName('record', caseId)}?own=1`, {
    headers: { cookie, origin: server.url },
  })
  const pen: Pen = { participant: participant.id, now: () => new Date(), newId: () => 'planned' }
  const answer = await client.attempt((doc) =>
    changePlan(doc, pen, 'right', { deviceClass: 'active-middle-ear-implant', couplingSite: 'round-window' }),
  )
  expect(answer).toBe('stored')
  client.close()
  return caseId
}

describe.each(['clinic', 'theatre'] as const)('in the %s theme', (theme) => {
  it('the pane has no serious accessibility fault, with a scenario and everything open', async () => {
    const { page } = await meeting.joinByLink('Heron', 'team', `Reader ${theme}`, { theme })
    const pane = await showPane(page, 'plan')
    await typed(pane, whatIf.slider.contact).fill('5')
    await openAll(pane)
    expect(await seriousFaults(page)).toEqual([])
  })

  it('a phone shows the options as cards and never scrolls sideways', async () => {
    const person: Participant = await meeting.joinByLink('Heron', 'team', `Phone ${theme}`, { theme, screen: 'phone' })
    const pane = await showPane(person.page, 'plan')
    await typed(pane, whatIf.slider.contact).fill('5')
    await openAll(pane)
    expect(await overflowPx(person.page)).toBe(0)
    const row = pane.getByRole('region', { name: words.options }).locator('tbody tr').first()
    expect(await row.evaluate((element) => getComputedStyle(element).display)).toBe('grid')
  })
})

async function openAll(pane: Locator): Promise<void> {
  const { sealed, fit, profiles } = forecastRecords
  for (const title of [sealed.title, fit.title, profiles.title]) await pane.getByText(title, { exact: true }).click()
  await pane.getByRole('button', { name: fit.add }).waitFor()
}
