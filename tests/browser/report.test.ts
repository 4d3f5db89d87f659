import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { extractText } from 'unpdf'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { report as words } from '../../app/messages/en/report.ts'
import { awayComplaints, Meeting, type Meeting as OpenMeeting, overflowPx, seriousFaults } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

let meeting: OpenMeeting
beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
})
afterAll(() => meeting.close())

async function open(caseId: string, screen: 'laptop' | 'phone', name: string): Promise<Page> {
  const { page } = await meeting.joinCase(caseId, 'team', name, { screen })
  await page.goto(`${meeting.server.url}/case/${caseId}/report`)
  await sheet(page, 'record').waitFor()
  return page
}
const sheet = (page: Page, kind: 'record' | 'publication' | 'appendix') =>
  page.getByRole('region', { name: new RegExp(words.heading[kind]) })

/** Text of each page of a PDF file as a reader finds it. */
async function pagesOf(bytes: Uint8Array): Promise<readonly string[]> {
  const { text } = await extractText(new Uint8Array(bytes), { mergePages: false })
  return text.map((page) => page.replaceAll(/\s+/g, ' '))
}

async function downloaded(page: Page, button: string): Promise<Uint8Array> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button, exact: true }).click(),
  ])
  return new Uint8Array(await readFile(await download.path()))
}

describe('the report of an ear that was operated on', () => {
  let page: Page
  beforeAll(async () => {
    page = await open('demo-curlew', 'laptop', 'Team Teal')
  })

  it('reports the last visit until another is chosen', async () => {
    const aided = sheet(page, 'record').getByRole('row', { name: /^Left ear, visit: aided/ })
    await aided.getByRole('cell', { name: '60' }).first().waitFor()
    await page.getByLabel(words.visit, { exact: true }).selectOption({ index: 0 })
    await sheet(page, 'record').getByText('First fitting,', { exact: false }).first().waitFor()
    await aided.getByRole('cell', { name: '60' }).waitFor({ state: 'detached' })
    await page.getByLabel(words.visit, { exact: true }).selectOption({ index: 2 })
    await aided.getByRole('cell', { name: '60' }).first().waitFor()
  })

  it('says that the measurements meet a contingency which nobody has confirmed', async () => {
    const met = words.contingencies.watchedButMet('Watching', '12 months')
    await sheet(page, 'record').getByText(met, { exact: false }).waitFor()
  })

  it('names what was not measured at 6 and 8 kHz', async () => {
    const row = sheet(page, 'publication').getByRole('row', { name: /^Aided threshold \(8 kHz/ })
    await row.getByText(words.value.missing([8000])).waitFor()
  })

  it.each(['operated', 'both'] as const)('prints one page a sheet and gives the same as a file: %s', async (ears) => {
    await page.getByLabel(words.ears).selectOption(ears)
    await page
      .getByRole('columnheader', { name: ears === 'both' ? /right$/ : words.before, exact: false })
      .first()
      .waitFor()
    const printed = await pagesOf(await page.pdf({ preferCSSPageSize: true }))
    const file = await pagesOf(await downloaded(page, words.download))
    for (const pages of [printed, file]) {
      expect(pages).toHaveLength(3)
      expect(pages[0]).toContain(words.heading.record)
      expect(pages[0]).toContain(words.cautions[1])
      expect(pages[1]).toContain(words.heading.publication)
      expect(pages[1]).toContain(words.cautions[1])
      expect(pages[2]).toContain(words.heading.appendix)
    }
  })

  it('copies the publication table, and gives it as a file', async () => {
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write'])
    await page.getByRole('button', { name: words.copy }).click()
    await page.getByText(words.copied).waitFor()
    const copied = await page.evaluate(() => navigator.clipboard.readText())
    expect(copied.split(/\r?\n/)[0]).toContain('ear\toperated\tvisit_on\tstandard\tmeasure')
    const file = new TextDecoder().decode(await downloaded(page, words.csv))
    expect(file.replaceAll('\r\n', '\n').split('\n').length).toBe(copied.split(/\r?\n/).length)
  })

  it('is made without a link too, and says that it may be old', async () => {
    for (const old of [words.linking, words.linkLost]) await page.getByText(old).waitFor({ state: 'detached' })
    meeting.allow(awayComplaints)
    await page.context().setOffline(true)
    await page.getByText(words.linkLost).waitFor()
    const pages = await pagesOf(await downloaded(page, words.download))
    expect(pages[0]).toContain(words.heading.record)
    await page.context().setOffline(false)
    await page.getByText(words.linkLost).waitFor({ state: 'detached' })
  })
})

it('says clearly that there is no outcome yet, on a phone too and without serious faults', async () => {
  const page = await open('demo-plover', 'phone', 'Team Tern')
  for (const kind of ['record', 'publication'] as const) await sheet(page, kind).getByText(words.noOutcome).waitFor()
  expect(await overflowPx(page)).toBe(0)
  expect(await seriousFaults(page)).toEqual([])
})

it('is open to nobody who is not in the case', async () => {
  const { page } = await meeting.joinCase('demo-curlew', 'panel', 'Panel Pipit')
  meeting.allow(/403/)
  await Promise.all([
    page.waitForResponse((response) => response.status() === 403),
    page.goto(`${meeting.server.url}/case/demo-plover/report`),
  ])
  await page.getByRole('heading', { name: messages.board.cannotOpen }).waitFor()
  expect(await sheet(page, 'record').count()).toBe(0)
})
