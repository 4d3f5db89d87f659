import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { learning } from '../../app/messages/en/learning.ts'
import { overview } from '../../app/messages/en/overview.ts'
import { series } from '../../app/messages/en/series.ts'
import { words } from '../../app/messages/en/words.ts'
import { Meeting, overflowPx, type Participant, seriousFaults, showPane } from '../support/browser.ts'

let meeting: Meeting
let surgeon: Participant
beforeAll(async () => {
  meeting = await Meeting.open({ env: { DEMO: 'series' } })
  surgeon = await meeting.joinBy(meeting.server.link('team'), 'team', 'Team Teal', { screen: 'laptop' })
}, 300_000)
afterAll(() => meeting.close())

const figures = [series.audiogram, series.compare, series.course, series.bins, series.scatter, series.calibration]
const figureOf = (page: Page, title: string) => page.getByRole('region', { name: title, exact: true }).first()
const isAddedUp = (page: Page) => page.getByText(/\d+ ears in this series/).waitFor()

describe('the series', () => {
  it('is reached from the list of cases, and says of how many ears it is', async () => {
    const { page } = surgeon
    await page.goto('/')
    await page.getByRole('link', { name: overview.series }).click()
    await isAddedUp(page)
    await page.getByText(/^300 ears in this series/).waitFor()
    for (const { title } of figures) await figureOf(page, title).locator('svg').first().waitFor()
  })

  it('follows its filters, which stand in the address', async () => {
    const { page } = surgeon
    await page.getByLabel(series.fields.site, { exact: true }).selectOption('stapes-head')
    await page.waitForURL(/site=stapes-head/)
    await page.getByText(/not selected/).waitFor()
    await page.reload()
    await isAddedUp(page)
    expect(await page.getByLabel(series.fields.site, { exact: true }).inputValue()).toBe('stapes-head')
    await page.getByRole('link', { name: series.clear }).click()
    await page.getByText(/^300 ears in this series/).waitFor()
  })

  it('takes several tags, each of which can be taken away again', async () => {
    const { page } = surgeon
    await page.goto('/series')
    await isAddedUp(page)
    const tag = page.getByLabel(series.fields.tag, { exact: true })
    for (const choice of [1, 1]) {
      await tag.selectOption({ index: choice })
      await page.getByRole('button', { name: series.add, exact: true }).click()
      await page.getByRole('list', { name: series.allTags }).waitFor()
    }
    const chosen = page.getByRole('list', { name: series.allTags }).getByRole('button')
    await chosen.nth(1).waitFor()
    expect(new URL(page.url()).searchParams.getAll('tag')).toHaveLength(2)
    await chosen.first().click()
    await expect.poll(() => chosen.count()).toBe(1)
    await page.getByRole('link', { name: series.clear }).click()
    await page.getByText(/^300 ears in this series/).waitFor()
  })

  it('compares two sites up to 8 kHz in a sentence and a table', async () => {
    const { page } = surgeon
    const compare = figureOf(page, series.compare.title)
    await compare.getByLabel(series.fields.measure).selectOption('functional-gain')
    await compare.getByLabel(series.fields.second).selectOption('round-window')
    await compare
      .getByText(/beyond chance after adjustment/)
      .first()
      .waitFor()
    await compare.getByText(series.table, { exact: true }).click()
    await compare.getByRole('row', { name: /^8 kHz/ }).waitFor()
    expect(await compare.getByRole('columnheader', { name: words.couplingSite['round-window'] }).count()).toBe(1)
  })

  it('saves a chart as a picture that stands by itself', async () => {
    const { page } = surgeon
    const course = figureOf(page, series.course.title)
    const saved = page.waitForEvent('download')
    await course.getByRole('button', { name: series.saveSvg }).click()
    const text = await readFile(await (await saved).path(), 'utf8')
    expect(text).toMatch(/^<svg [^>]*xmlns="http:\/\/www\.w3\.org\/2000\/svg"/)
    expect(text).not.toContain('var(--')
    const drawn = page.waitForEvent('download')
    await course.getByRole('button', { name: series.savePng }).click()
    const png = await readFile(await (await drawn).path())
    expect(png.subarray(1, 4).toString()).toBe('PNG')
    expect(png.readUInt32BE(16)).toBe(1280)
  })

  it('says how many ears a study needs, and what it cannot compute', async () => {
    const { page } = surgeon
    const size = figureOf(page, series.size.title)
    await size.getByText(/^\d+ ears in each group to see 5 dB at 4 kHz with 80 % power/).waitFor()
    await size.getByLabel(series.size.difference).fill('0')
    await size.getByText(series.size.fault).waitFor()
  })

  it('names what an address asks for in vain', async () => {
    const { page } = surgeon
    await page.goto('/series?site=elbow')
    await page.getByRole('alert').filter({ hasText: 'elbow' }).waitFor()
    await page.getByRole('link', { name: series.clear }).click()
    await isAddedUp(page)
  })

  it('shows no interval of three ears, and says why', async () => {
    const { page } = surgeon
    await page.goto('/series?chain=fixed&site=stapes-head')
    await page.getByText(series.empty).waitFor()
    await page.goto('/series?tag=open+cavity&site=round-window&ear=left')
    await page.getByText(series.few(3)).waitFor()
    const bins = figureOf(page, series.bins.title)
    await bins.getByText(series.table, { exact: true }).click()
    await bins
      .getByRole('row', { name: /^0 to 10/ })
      .getByRole('cell', { name: series.none, exact: true })
      .waitFor()
  })

  it.each(['clinic', 'theatre'] as const)('has no serious fault in the %s theme', async (theme) => {
    const reader = await meeting.joinBy(meeting.server.link('team'), 'team', `Reader ${theme}`, { theme })
    await reader.page.goto('/series')
    await isAddedUp(reader.page)
    expect(await seriousFaults(reader.page)).toEqual([])
    await reader.context.close()
  })

  it('fits a phone', async () => {
    const phone = await meeting.joinBy(meeting.server.link('team'), 'team', 'Phone', { screen: 'phone' })
    await phone.page.goto('/series')
    await isAddedUp(phone.page)
    expect(await overflowPx(phone.page)).toBe(0)
    await phone.context.close()
  })

  it('lets the forecast of a case learn, and says how many ears speak', async () => {
    const { page } = surgeon
    await page.goto('/')
    await page.getByRole('link', { name: 'Ear 001', exact: true }).click()
    const plan = await showPane(page, 'plan')
    const own = plan.getByRole('region', { name: learning.title })
    await own.getByText(learning.off).waitFor()
    await own.getByLabel(learning.use).check()
    await own.getByText(/^\d+ ears of your own with this option speak/).waitFor()
    await own.getByText(learning.sealing).waitFor()
    await page.waitForURL(/learning=on/)
    await page.reload()
    await showPane(page, 'plan')
    await own.getByText(/^\d+ ears of your own with this option speak/).waitFor()
    await own.getByLabel(learning.use).uncheck()
    await own.getByText(learning.off).waitFor()
    expect(new URL(page.url()).searchParams.has('learning')).toBe(false)
  })

  it('names the one case that it could not read, and adds up the others', async () => {
    const { page } = surgeon
    const database = new Database(join(meeting.server.dataDir, 'promontory.db'))
    database.exec(`UPDATE outcome_revision SET last = last + 1;
      UPDATE case_outcomes SET revision = (SELECT last FROM outcome_revision), forecast = '{' WHERE case_id = 'demo-ear-7'`)
    database.close()
    await page.goto('/series')
    await page.getByText(/^1 case could not be read: Ear 007\./).waitFor()
    await page.getByText(/^299 ears in this series/).waitFor()
  })

  it('is closed to those who were invited to watch', async () => {
    meeting.allow(/403/)
    const panel = await meeting.joinBy(meeting.server.link('panel'), 'panel', 'Panel Pipit')
    await panel.page.goto('/series')
    await panel.page.getByText(series.notForYouHint).waitFor()
    expect(await panel.page.getByLabel(series.fields.site, { exact: true }).count()).toBe(0)
    await panel.context.close()
  })
})
