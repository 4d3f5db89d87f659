import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { themeCookie } from '../../app/theme/theme.ts'
import {
  allSee,
  awayComplaints,
  type Five,
  isOpen,
  isStored,
  Meeting,
  overflowPx,
  type Participant,
  seriousFaults,
  showPane,
} from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { board, votes } = messages
const question = 'Round window or stapes head?'
const options = ['Round window', 'Stapes head', 'Neither today'] as const
let meeting: Meeting
let five: Five
let theatre: Participant

beforeAll(async () => {
  meeting = await Meeting.open()
  const caseId = await meeting.server.createCase('Case Heron')
  five = await meeting.joinFive(caseId)
  theatre = await meeting.joinCase(caseId, 'observer', 'Theatre Teal', { screen: 'projector', theme: 'theatre' })
  await theatre.page.goto(`/case/${caseId}/theatre`)
}, 600_000)
afterAll(() => meeting.close())

const barOf = (page: Page) => page.getByRole('region', { name: votes.barTitle(question) })
const resultOf = (page: Page) => page.getByRole('listitem', { name: votes.resultOf(question) })

async function vote(page: Page, option: string, confidence: number): Promise<void> {
  await barOf(page).getByRole('button', { name: option }).click()
  await barOf(page)
    .getByRole('button', { name: votes.sure(confidence), exact: true })
    .click()
  await barOf(page).getByText(votes.youVotedSure(option, confidence)).waitFor()
}

it('is opened by the moderator with a question and its options, and stands above everybody’s panes', async () => {
  const { page } = five.moderator
  const pane = await showPane(page, 'decisions')
  await pane.getByRole('button', { name: votes.open }).click()
  await page.keyboard.type(question)
  for (const [place, option] of options.entries()) await page.getByLabel(votes.option(place + 1)).fill(option)
  await page.getByRole('button', { name: votes.start }).click()
  await allSee(five.everybody, barOf)
  await isStored(page)
  await theatre.page.getByText(votes.inTheatre.open).waitFor()
  expect(await barOf(five.observer.page).getByRole('button').count()).toBe(0)
  expect(await barOf(page).getByRole('button', { name: options[0] }).count()).toBe(0)
})

it('takes two taps on a phone, and is secret to everybody else', async () => {
  const { page } = five.panelTwo
  await vote(page, options[0], 80)
  expect(await overflowPx(page)).toBe(0)
  await vote(five.panelOne.page, options[1], 60)
  await barOf(five.moderator.page).getByText(votes.turnout(2)).waitFor()
  for (const { page: other } of [five.moderator, five.team, five.observer])
    expect(await other.getByText(/You voted/).count()).toBe(0)
})

it('is changed until the close, after the page was opened anew and the server was killed', async () => {
  const { page } = five.panelOne
  meeting.allow(awayComplaints)
  await meeting.server.kill9()
  await meeting.server.start()
  await page.reload()
  await isOpen(page)
  await barOf(page).getByText(votes.youVotedSure(options[1], 60)).waitFor()
  await vote(page, options[0], 100)
})

it('shows what was counted to everybody once the moderator closes it', async () => {
  const { page } = five.moderator
  await isOpen(page)
  await barOf(page).getByText(votes.turnout(2)).waitFor()
  await barOf(page).getByRole('button', { name: votes.close }).click()
  await Promise.all(five.everybody.map(({ page: each }) => showPane(each, 'decisions')))
  await allSee(five.everybody, resultOf)
  for (const { page: each } of five.everybody) {
    expect(await barOf(each).count()).toBe(0)
    await resultOf(each).getByText(votes.votes(2)).waitFor()
    await resultOf(each).getByText(votes.notVoted(1)).waitFor()
    await resultOf(each)
      .getByText(votes.allConfidence(80, 90, 100))
      .waitFor()
  }
  await theatre.page.getByText(`${options[0]}: 2`).waitFor()
})

it('goes to the main screen with one key', async () => {
  const { page } = five.moderator
  const { page: hall } = five.observer
  await resultOf(page).getByRole('button', { name: votes.screen }).focus()
  await page.keyboard.press('s')
  await page.getByRole('banner').getByText(board.onScreen.vote).waitFor()
  await hall.goto(`${new URL(hall.url()).pathname}/screen`)
  await hall.getByText(votes.allConfidence(80, 90, 100)).waitFor()
})

describe.each(['clinic', 'theatre'] as const)('the %s theme', (theme) => {
  it('has no serious fault in form, open vote, result and main screen', async () => {
    const { moderator, panelTwo, observer } = five
    for (const { context, page } of [moderator, panelTwo, observer]) {
      await context.addCookies([{ name: themeCookie, value: theme, url: meeting.server.url }])
      await page.reload()
    }
    const second = `Which approach, in the ${theme} theme?`
    await (await showPane(moderator.page, 'decisions')).getByRole('button', { name: votes.open }).click()
    expect(await seriousFaults(moderator.page)).toEqual([])
    await moderator.page.keyboard.type(second)
    for (const place of [1, 2]) await moderator.page.getByLabel(votes.option(place)).fill(`Way ${place}`)
    await moderator.page.getByRole('button', { name: votes.start }).click()
    const bar = panelTwo.page.getByRole('region', { name: votes.barTitle(second) })
    await bar.getByRole('button', { name: 'Way 1' }).click()
    await showPane(panelTwo.page, 'decisions')
    expect(await seriousFaults(panelTwo.page)).toEqual([])
    expect(await seriousFaults(moderator.page)).toEqual([])
    await observer.page.getByText(votes.allConfidence(80, 90, 100)).waitFor()
    expect(await seriousFaults(observer.page)).toEqual([])
    await moderator.page.getByRole('button', { name: votes.withdraw }).click()
    await moderator.page.getByRole('button', { name: votes.withdrawReally }).click()
    await bar.waitFor({ state: 'detached' })
  })
})
