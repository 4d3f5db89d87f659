import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import {
  allSee,
  awayComplaints,
  isStored,
  Meeting,
  type Participant,
  paneOf,
  rowOf,
  showPane,
} from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { audiogram, board, floor, hearing, shell, words } = messages
let meeting: Meeting
let moderator: Participant, team: Participant, panel: Participant

beforeAll(async () => {
  meeting = await Meeting.open()
  meeting.allow(awayComplaints)
  const caseId = await meeting.server.createCase('Case Heron')
  ;[moderator, team, panel] = await Promise.all([
    meeting.joinCase(caseId, 'moderator', 'Mod Merlin'),
    meeting.joinCase(caseId, 'team', 'Team Teal'),
    meeting.joinCase(caseId, 'panel', 'Panel Plover'),
  ])
  // What nobody has opened yet is loaded as well by then.
  for (const { page } of [moderator, team, panel])
    await page.locator('[data-works-offline=true]').waitFor({ state: 'attached' })
}, 600_000)
afterAll(() => meeting.close())

async function goOffline({ context, page }: Participant): Promise<void> {
  await context.setOffline(true)
  await page.getByText(board.away.offline.kept).waitFor()
}

async function comeBack({ context, page }: Participant): Promise<void> {
  await context.setOffline(false)
  await isStored(page)
}

async function ask(page: Page, text: string): Promise<void> {
  await showPane(page, 'floor')
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByLabel(floor.ask.label).press('Control+Enter')
  await rowOf(paneOf(page, 'floor'), text).waitFor()
}

/** Whether the copy that this browser keeps holds these words. */
const isInCopy = (page: Page, words: string): Promise<boolean> =>
  page.evaluate(async (wanted) => {
    for (const { name } of await indexedDB.databases()) {
      const database = await new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexedDB.open(name ?? '')
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error)
      })
      const rows = database.objectStoreNames.contains('updates')
        ? await new Promise<Uint8Array[]>((resolve, reject) => {
            const request = database.transaction('updates').objectStore('updates').getAll()
            request.onsuccess = () => resolve(request.result)
            request.onerror = () => reject(request.error)
          })
        : []
      database.close()
      if (rows.some((row) => new TextDecoder('latin1').decode(row).includes(wanted))) return true
    }
    return false
  }, words)

async function enterTest(page: Page, ear: 'right' | 'left'): Promise<void> {
  const pane = await showPane(page, 'hearing')
  await pane.getByRole('button', { name: hearing.test.enter }).click()
  const dialog = page.getByRole('dialog', { name: hearing.newTest.title })
  await dialog.getByLabel(hearing.newTest.ear, { exact: true }).selectOption({ label: words.ear[ear] })
  await dialog.getByRole('button', { name: hearing.newTest.submit }).click()
  await dialog.waitFor({ state: 'hidden' })
}

it('opens every pane without a link, also one that nobody had opened before', async () => {
  await goOffline(panel)
  for (const pane of ['decisions', 'steps', 'plan'] as const) await showPane(panel.page, pane)
  await comeBack(panel)
})

it('merges what was written on both sides of a lost link, and says on which page it was lost', async () => {
  await goOffline(panel)
  await ask(panel.page, 'Written without a link?')
  await panel.page.getByRole('banner').getByText(board.storedState.offline).waitFor()
  await ask(team.page, 'Written meanwhile?')
  expect(await rowOf(paneOf(team.page, 'floor'), 'Written without a link?').count()).toBe(0)
  await comeBack(panel)
  for (const text of ['Written without a link?', 'Written meanwhile?'])
    await allSee([moderator, team, panel], (page) => rowOf(paneOf(page, 'floor'), text))
  await panel.page.getByText(board.away.offline.kept).waitFor({ state: 'hidden' })
})

it('keeps what was written offline when the page is closed before the link is back', async () => {
  const { page, context } = panel
  await goOffline(panel)
  await ask(page, 'Written, then closed?')
  const address = page.url()
  // The browser writes its copy a moment after the page shows the edit.
  await expect.poll(() => isInCopy(page, 'Written, then closed?'), { timeout: 30_000 }).toBe(true)
  await page.close()
  await context.setOffline(false)
  const again = await context.newPage()
  await again.goto(address)
  await allSee([moderator, team, { ...panel, page: again }], (where) =>
    rowOf(paneOf(where, 'floor'), 'Written, then closed?'),
  )
})

it('refuses an edit that the board no longer allows, says why, keeps it alone as a draft and touches nobody else', async () => {
  await goOffline(team)
  // Both go in one update when the link returns; only the first is at fault.
  await enterTest(team.page, 'right')
  await enterTest(team.page, 'left')
  await enterTest(moderator.page, 'right')
  await isStored(moderator.page)
  await comeBack(team)
  const refusal = team.page.getByRole('alert', { name: board.refusedTitle })
  await refusal.getByText(/already a current unaided test of the right ear/).waitFor()
  const tests = (page: Page, ear: string) =>
    paneOf(page, 'hearing').getByRole('button', { name: new RegExp(`${audiogram.testStates.current}.*${ear} ear`) })
  for (const ear of ['right', 'left']) await expect.poll(() => tests(moderator.page, ear).count()).toBe(1)
  for (const ear of ['right', 'left']) await expect.poll(() => tests(team.page, ear).count()).toBe(1)
  await isStored(team.page)

  await refusal.getByRole('button', { name: board.showDrafts }).click()
  const drafts = team.page.getByRole('dialog', { name: board.drafts })
  await drafts.getByText(/already a current unaided test/).waitFor()
  expect(await drafts.getByRole('button', { name: board.discard }).count()).toBe(1)
  await drafts.getByRole('button', { name: board.discard }).click()
  await drafts.getByText(board.noDrafts).waitFor()
  await drafts.getByRole('button', { name: shell.close }).click()

  await ask(team.page, 'Does the next edit pass?')
  await allSee([moderator], (page) => rowOf(paneOf(page, 'floor'), 'Does the next edit pass?'))
  expect(await moderator.page.getByRole('alert', { name: board.refusedTitle }).count()).toBe(0)
})

it('sends everything again after the server was killed in the middle of it', async () => {
  await meeting.server.kill9()
  await ask(team.page, 'Asked while the server was dead?')
  await meeting.server.start()
  await isStored(team.page)
  await allSee([moderator], (page) => rowOf(paneOf(page, 'floor'), 'Asked while the server was dead?'))
})

it('opens by itself when the server answers again, as a main screen that nobody tends must', async () => {
  const page = await moderator.context.newPage()
  let isDown = true
  await page.route('**/api/**', (route) => (isDown ? route.abort('connectionrefused') : route.continue()))
  await page.goto(`${new URL(moderator.page.url()).pathname}/screen`)
  await page.getByText(board.cannotOpen).waitFor()
  isDown = false
  await page.getByText(board.cannotOpen).waitFor({ state: 'detached' })
  await page.locator('main').waitFor()
  await page.close()
})
