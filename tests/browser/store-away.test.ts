import Database from 'better-sqlite3'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { dataFiles } from '../../server/data-folder.ts'
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

/** A server that is there and can store nothing: it says so on every page, and nothing is called stored that is not. */
const { board, floor, screens } = messages
let meeting: Meeting
let moderator: Participant, panel: Participant
let screen: Page, theatre: Page

beforeAll(async () => {
  meeting = await Meeting.open()
  meeting.allow(awayComplaints)
  // Answers of 503 while the server does not reach its data.
  meeting.allow(/status of 503/)
  const caseId = await meeting.server.createCase('Case Heron')
  ;[moderator, panel] = await Promise.all([
    meeting.joinCase(caseId, 'moderator', 'Mod Merlin'),
    meeting.joinCase(caseId, 'panel', 'Panel Plover'),
  ])
  screen = await moderator.context.newPage()
  theatre = await moderator.context.newPage()
  await screen.goto(`/case/${caseId}/screen`)
  await theatre.goto(`/case/${caseId}/theatre`)
  await theatre.getByText(screens.theatre.noQuestion).waitFor()
  await screen.locator('[data-link]').waitFor({ state: 'detached' })
}, 600_000)
afterAll(() => meeting.close())

/** Another process holds the database: the server waits for it, and then cannot write. */
function holdDatabase(): () => void {
  const other = new Database(dataFiles(meeting.server.dataDir).store)
  other.exec('BEGIN IMMEDIATE')
  return () => {
    other.exec('ROLLBACK')
    other.close()
  }
}

const start = (sentence: (since: string) => string): RegExp => new RegExp(sentence('@').split('@')[0] ?? '')

it('is named on board, main screen and theatre view; what was written meanwhile is kept, sent again and then stored', async () => {
  const release = holdDatabase()
  await showPane(panel.page, 'floor')
  await panel.page.getByLabel(floor.ask.label).fill('Asked while nothing is stored?')
  await panel.page.getByLabel(floor.ask.label).press('Control+Enter')
  await rowOf(paneOf(panel.page, 'floor'), 'Asked while nothing is stored?').waitFor()

  const banner = panel.page.getByRole('banner')
  await banner.getByText(board.storedState['store-away-kept-here']).waitFor()
  await panel.page.getByText(board.away['store-away'].kept).waitFor()
  await moderator.page.getByRole('banner').getByText(board.storedState['store-away'], { exact: false }).waitFor()
  await screen.getByText(start(screens.screen.lost.store)).waitFor()
  await theatre.getByText(start(screens.theatre.lost.store)).waitFor()
  expect(await banner.getByText(new RegExp(`${board.storedState.stored}$`)).count()).toBe(0)
  await showPane(moderator.page, 'floor')
  expect(await rowOf(paneOf(moderator.page, 'floor'), 'Asked while nothing is stored?').count()).toBe(0)
  expect((await meeting.server.get('/readyz')).status).toBe(503)
  expect(meeting.server.errors).toContain('"event":"store-outage"')

  release()
  await isStored(panel.page)
  await allSee([moderator, panel], (page) => rowOf(paneOf(page, 'floor'), 'Asked while nothing is stored?'))
  await panel.page.getByText(board.away['store-away'].kept).waitFor({ state: 'detached' })
  await theatre.getByText(start(screens.theatre.lost.store)).waitFor({ state: 'detached' })
  await screen.locator('[data-link]').waitFor({ state: 'detached' })
  expect((await meeting.server.get('/readyz')).status).toBe(200)
  expect(meeting.server.errors).toContain('"event":"store-back"')
})
