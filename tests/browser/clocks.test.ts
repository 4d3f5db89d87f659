import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { readTable } from '../../lib/board/reading.ts'
import { allSee, isOpen, isStored, Meeting, type Participant, paneOf, rowOf, showPane } from '../support/browser.ts'
import { LightClient } from '../support/light-client.ts'
import { messages } from '../support/messages.ts'

/** A device whose clock is wrong by hours: what is written on it carries the server's time. */
const { board, floor, shell } = messages
const hourMs = 3_600_000
let meeting: Meeting
let caseId: string
let moderator: Participant, panel: Participant

beforeAll(async () => {
  meeting = await Meeting.open()
  caseId = await meeting.server.createCase('Case Heron')
  ;[moderator, panel] = await Promise.all([
    meeting.joinCase(caseId, 'moderator', 'Mod Merlin'),
    meeting.joinCase(caseId, 'panel', 'Panel Plover'),
  ])
}, 600_000)
afterAll(() => meeting.close())

/** In the page: from now on its clock is so far from that of this computer, and goes on as fast. */
function setClock(byMs: number): void {
  const TrueDate = Date
  globalThis.Date = class extends TrueDate {
    constructor(...given: []) {
      if (given.length === 0) super(TrueDate.now() + byMs)
      else super(...given)
    }
    static override now(): number {
      return TrueDate.now() + byMs
    }
  } as DateConstructor
}

async function ask(page: Page, text: string): Promise<void> {
  await showPane(page, 'floor')
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByLabel(floor.ask.label).press('Control+Enter')
}

/** When the server has it that this was written. */
async function writtenAt(text: string): Promise<number> {
  const { cookie } = await meeting.server.join('observer', 'Obs')
  const client = await LightClient.join(`${meeting.server.syncUrl}/floor.${caseId}?own=1`, { headers: { cookie } })
  const found = readTable(client.doc, 'questions').find((question) => question.text === text)
  client.close()
  return Date.parse(found?.at ?? '')
}

it.each([
  ['seven hours ahead', 7 * hourMs],
  ['two days behind', -48 * hourMs],
])('%s when the page is opened: what is written has the time of the server', async (name, byMs) => {
  const text = `Asked by a clock ${name}?`
  const page = await panel.context.newPage()
  await page.addInitScript(setClock, byMs)
  await page.goto(panel.page.url())
  await isOpen(page)
  await page.locator('[data-works-offline=true]').waitFor({ state: 'attached' })
  await ask(page, text)
  await allSee([moderator], (where) => rowOf(paneOf(where, 'floor'), text))
  expect(Math.abs((await writtenAt(text)) - Date.now())).toBeLessThan(60_000)
  await page.close()
})

it('set five hours ahead while the page is open: the next edit is refused and kept, and passes when it is tried again', async () => {
  const { page } = panel
  await page.evaluate(setClock, 5 * hourMs)
  await ask(page, 'Asked after the clock was set?')
  const refusal = page.getByRole('alert', { name: board.refusedTitle })
  await refusal.getByText(/is not possible/).waitFor()
  await refusal.getByRole('button', { name: board.showDrafts }).click()
  const drafts = page.getByRole('dialog', { name: board.drafts })
  await drafts.getByRole('button', { name: board.retry }).click()
  await drafts.getByText(board.noDrafts).waitFor()
  await drafts.getByRole('button', { name: shell.close }).click()
  await isStored(page)
  await allSee([moderator], (where) => rowOf(paneOf(where, 'floor'), 'Asked after the clock was set?'))
  expect(Math.abs((await writtenAt('Asked after the clock was set?')) - Date.now())).toBeLessThan(60_000)
})

it('set two days back while the page is open: what is written has the time of the server all the same', async () => {
  const page = await panel.context.newPage()
  await page.goto(panel.page.url())
  await isOpen(page)
  await page.locator('[data-works-offline=true]').waitFor({ state: 'attached' })
  await page.evaluate(setClock, -48 * hourMs)
  await ask(page, 'Asked after the clock was set back?')
  await allSee([moderator], (where) => rowOf(paneOf(where, 'floor'), 'Asked after the clock was set back?'))
  expect(Math.abs((await writtenAt('Asked after the clock was set back?')) - Date.now())).toBeLessThan(60_000)
  await page.close()
})
