import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { showOnMainScreen } from '../../lib/board/edits/decisions.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import type { Showing } from '../../lib/board/records/main-screen.ts'
import { awayComplaints, Meeting, type Participant, paneOf, rowOf, showPane } from '../support/browser.ts'
import { LightClient } from '../support/light-client.ts'
import { messages } from '../support/messages.ts'

const { audiogram, board, decisions, hearing, screens, words } = messages
let meeting: Meeting
let moderator: Participant
let hall: Participant
let theatre: Participant

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  ;[moderator, hall, theatre] = await Promise.all([
    meeting.joinByLink('Heron', 'moderator', 'Mod Merlin'),
    meeting.joinByLink('Heron', 'observer', 'Hall Heron', { screen: 'projector' }),
    meeting.joinByLink('Heron', 'team', 'Theatre Teal', { screen: 'projector', theme: 'theatre' }),
  ])
  await Promise.all([openPage(hall.page, 'screen'), openPage(theatre.page, 'theatre')])
}, 600_000)
afterAll(() => meeting.close())

const openPage = (page: Page, name: string) => page.goto(`${new URL(page.url()).pathname}/${name}`)
const question = (page: Page, text: string): Locator =>
  paneOf(page, 'floor').getByRole('button', { name: text, exact: true })

/** Whether the content of the card on the main screen is taller than the room for it. */
const reachesIntoFoot = (page: Page): Promise<boolean> =>
  page.evaluate(() =>
    [...document.querySelectorAll('section > div')].some((body) => body.scrollHeight > body.clientHeight),
  )

it('follows what the moderator puts on the main screen with one key: a question', async () => {
  const text = 'What do we lose at 6 kHz compared with the stapes head?'
  await question(moderator.page, text).focus()
  await moderator.page.keyboard.press('s')
  await hall.page.getByText(text).waitFor()
  await moderator.page.getByRole('banner').getByText(board.onScreen.question).waitFor()
})

it('follows: a decision and a contingency', async () => {
  const { page } = moderator
  const pane = await showPane(page, 'decisions')
  await pane.getByRole('button', { name: new RegExp(`^${decisions.kind.decision}: Round window first`) }).focus()
  await page.keyboard.press('s')
  await hall.page.getByText(/Round window first\./).waitFor()
  await pane.getByRole('button', { name: /effective gain at 2 to 4 kHz falls by 10 dB/ }).focus()
  await page.keyboard.press('s')
  await hall.page.getByText(/Exchange the external parts/).waitFor()
  await hall.page.getByText(/the effective gain at 2 to 4 kHz falls by 10 dB/).waitFor()
})

it('follows: the steps and the forecast', async () => {
  const { page } = moderator
  const steps = await showPane(page, 'steps')
  await steps.getByRole('button', { name: 'Coupling test', exact: true }).focus()
  await page.keyboard.press('s')
  await hall.page.getByText('Remove the overhang of the round-window niche').first().waitFor()
  const plan = await showPane(page, 'plan')
  await plan
    .getByRole('button', { name: /Why\?$/ })
    .first()
    .focus()
  await page.keyboard.press('s')
  await hall.page.getByText(words.couplingSite['round-window']).first().waitFor()
  await hall.page.getByText(/dB HL/).first().waitFor()
})

it('follows: an audiogram with the same record code as on the board', async () => {
  const { page } = moderator
  const pane = paneOf(page, 'hearing')
  const current = pane.getByRole('listitem').filter({
    has: page.getByRole('button', { name: new RegExp(`${audiogram.testStates.current}.*right ear, unaided`) }),
  })
  const code = await current.getByRole('code').textContent()
  await pane.getByRole('radio', { name: hearing.ears.right, exact: true }).check()
  await pane
    .getByRole('img')
    .first()
    .click({ position: { x: 5, y: 5 } })
  await page.keyboard.press('s')
  await hall.page
    .getByText(code ?? '', { exact: true })
    .first()
    .waitFor()
  await page.getByRole('banner').getByText(board.onScreenAudiogram('right')).waitFor()
})

it('marks a test that is not current unmistakably on the main screen too', async () => {
  const { page } = moderator
  const pane = paneOf(page, 'hearing')
  await pane
    .getByRole('button', { name: new RegExp(`${audiogram.testStates.superseded}.*right ear, unaided`) })
    .first()
    .click()
  await pane
    .getByRole('img')
    .first()
    .click({ position: { x: 5, y: 5 } })
  await page.keyboard.press('s')
  await hall.page
    .getByRole('alert')
    .filter({ hasText: screens.screen.notCurrent(words.testState.superseded) })
    .waitFor()
})

it('shows the options, a scenario and a sealed forecast on one surface', async () => {
  const desk = await meeting.server.joinBy(meeting.server.link('moderator'), 'Desk Dunlin')
  const client = await LightClient.join(`${meeting.server.url.replace('http', 'ws')}/sync/record.demo-heron?own=1`, {
    headers: { cookie: desk.cookie, origin: meeting.server.url },
  })
  const pen: Pen = { participant: desk.participant.id, now: () => new Date(), newId: () => 'never' }
  const put = (showing: Showing) => client.attempt((doc) => showOnMainScreen(doc, pen, showing))
  const { screen } = screens
  const wanted: [Showing, string, string][] = [
    [{ kind: 'options' }, messages.forecast.options, messages.forecast.planned],
    [{ kind: 'scenario', id: 'what-if-contact' }, screen.scenario, screen.againstFound],
    [{ kind: 'sealed-forecast', id: 'sealed-left' }, screen.sealedForecast, screen.meanAided],
  ]
  for (const [showing, title, text] of wanted) {
    expect(await put(showing)).toBe('stored')
    await hall.page.getByRole('heading', { name: title, exact: true }).waitFor()
    await hall.page.getByText(text).first().waitFor()
    expect(await reachesIntoFoot(hall.page)).toBe(false)
    await moderator.page
      .getByRole('banner')
      .getByText(board.onScreen[showing.kind as 'options'])
      .waitFor()
  }
  client.close()
})

it('clears the main screen when the moderator takes everything down', async () => {
  await moderator.page.getByRole('button', { name: board.takeDown }).click()
  await hall.page.getByRole('heading', { name: 'Heron' }).waitFor()
})

it('tells the theatre the step under way and the called question', async () => {
  const { page } = moderator
  await theatre.page.getByText('Remove the overhang of the round-window niche').waitFor()
  const text = 'What do we lose at 6 kHz compared with the stapes head?'
  await question(page, text).focus()
  await page.keyboard.press('c')
  await theatre.page.getByText(text).waitFor()
  const steps = await showPane(page, 'steps')
  for (const title of [
    'Remove the overhang of the round-window niche',
    'Last coagulation before the device leaves its pack',
  ]) {
    await rowOf(steps, title).getByRole('button', { name: title, exact: true }).focus()
    await page.keyboard.press('n')
  }
  // What comes after the step under way.
  await theatre.page.getByText('Fix the implant, place the actuator with its coupler').waitFor()
})

it('offers nothing to touch on screen and theatre view', async () => {
  for (const { page } of [hall, theatre])
    for (const role of ['button', 'link', 'textbox', 'checkbox', 'combobox'] as const)
      expect(await page.getByRole(role).count()).toBe(0)
})

it('says on screen and theatre view that the link is lost, and goes on when it is back', async () => {
  meeting.allow(awayComplaints)
  await Promise.all([hall, theatre].map(({ context }) => context.setOffline(true)))
  await hall.page.getByText(/Link lost since/).waitFor()
  await theatre.page
    .getByRole('alert')
    .filter({ hasText: /LINK LOST since/ })
    .waitFor()
  await Promise.all([hall, theatre].map(({ context }) => context.setOffline(false)))
  await hall.page.getByText(/Link lost since/).waitFor({ state: 'hidden' })
  await theatre.page.getByText(/LINK LOST since/).waitFor({ state: 'hidden' })
})

it('prints a handout with the record code that stands on the board', async () => {
  const { page } = moderator
  const code = await paneOf(page, 'hearing').getByRole('code').first().textContent()
  await openPage(hall.page, '../handout')
  await hall.page.getByRole('heading', { name: screens.handout.formerTests }).waitFor()
  await hall.page
    .getByText(code ?? '')
    .first()
    .waitFor()
})
