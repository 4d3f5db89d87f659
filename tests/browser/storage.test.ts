import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import {
  allSee,
  awayComplaints,
  isOpen,
  isStored,
  Meeting,
  type Participant,
  paneOf,
  rowOf,
  showPane,
} from '../support/browser.ts'
import { messages } from '../support/messages.ts'

/** A browser that keeps nothing for the page, from the start or from the middle: it says so, and no edit is lost. */
const { board, floor } = messages
let meeting: Meeting
let moderator: Participant, panel: Participant

beforeAll(async () => {
  meeting = await Meeting.open()
  meeting.allow(awayComplaints)
  const caseId = await meeting.server.createCase('Case Heron')
  ;[moderator, panel] = await Promise.all([
    meeting.joinCase(caseId, 'moderator', 'Mod Merlin'),
    meeting.joinCase(caseId, 'panel', 'Panel Plover'),
  ])
}, 600_000)
afterAll(() => meeting.close())

async function ask(page: Page, text: string): Promise<void> {
  await showPane(page, 'floor')
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByLabel(floor.ask.label).press('Control+Enter')
  await rowOf(paneOf(page, 'floor'), text).waitFor()
}

/** Writes while there is no link, and is not closed before it is back. */
async function askOffline({ context }: Participant, page: Page, text: string): Promise<void> {
  await context.setOffline(true)
  await page.getByText(board.away.offline.notKept).waitFor()
  await ask(page, text)
  await context.setOffline(false)
  await isStored(page)
  await allSee([moderator], (where) => rowOf(paneOf(where, 'floor'), text))
}

/** In the page: every write is taken and undone when it is to be committed, as Chromium does without room (from memory). */
function fillStorage(): void {
  const add = IDBObjectStore.prototype.add
  IDBObjectStore.prototype.add = function (...given) {
    const request = add.apply(this, given)
    request.addEventListener('success', () => this.transaction.abort())
    return request
  }
}

it('denied by the browser: the page says so, works, and sends what was written without a link', async () => {
  const page = await panel.context.newPage()
  await page.addInitScript(() => {
    const denied = () => {
      throw new DOMException('The operation is insecure.', 'SecurityError')
    }
    IDBFactory.prototype.open = denied
    Object.defineProperty(globalThis, 'localStorage', { get: denied })
  })
  await page.goto(panel.page.url())
  await isOpen(page)
  await page.getByText(board.noCopy).waitFor()
  await page.locator('[data-works-offline=true]').waitFor({ state: 'attached' })
  await askOffline(panel, page, 'Asked with storage denied?')
  await page.close()
})

it('full: the page says so from then on, works, and sends what was written without a link', async () => {
  const { page } = panel
  await page.locator('[data-works-offline=true]').waitFor({ state: 'attached' })
  expect(await page.getByText(board.noCopy).count()).toBe(0)
  await page.evaluate(fillStorage)
  await ask(page, 'Asked with storage full?')
  await isStored(page)
  await page.getByText(board.noCopy).waitFor()
  await askOffline(panel, page, 'Asked with storage full and no link?')
})
