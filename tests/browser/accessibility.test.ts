import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Theme, themeCookie } from '../../app/theme/theme.ts'
import { Meeting, overflowPx, type Participant, screens, seriousFaults, showPane } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { board, decisions, hearing, invitations, overview, steps } = messages
let meeting: Meeting
let owner: Participant
let moderator: Participant
let phone: Participant

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  ;[owner, moderator, phone] = await Promise.all([
    meeting.joinBy(meeting.server.ownerLink, 'moderator', 'Owner Olm'),
    meeting.joinByLink('Heron', 'moderator', 'Mod Merlin'),
    meeting.joinByLink('Heron', 'panel', 'Panel Pipit', { screen: 'phone' }),
  ])
}, 600_000)
afterAll(() => meeting.close())

const panes = ['hearing', 'plan', 'steps', 'decisions', 'floor'] as const
const pagesOfCase = ['desk', 'screen', 'theatre', 'handout', 'code', 'follow-up', 'report'] as const
const caseOf = (page: Page): string => /^\/case\/[^/]+/.exec(new URL(page.url()).pathname)?.[0] ?? ''

/** Draws the page in a theme, as the choice of somebody who came before. */
async function drawIn(theme: Theme, { context, page }: Participant): Promise<void> {
  await context.addCookies([{ name: themeCookie, value: theme, url: meeting.server.url }])
  await page.reload()
}

describe.each(['clinic', 'theatre'] as const)('the %s theme', (theme) => {
  it('has no serious fault on the pages before a case', async () => {
    await drawIn(theme, owner)
    const { page } = owner
    await page.goto('/')
    await page.getByRole('heading', { name: overview.title }).waitFor()
    expect(await seriousFaults(page)).toEqual([])
    await page.getByRole('button', { name: overview.newProgramme }).click()
    expect(await seriousFaults(page)).toEqual([])
    await page.keyboard.press('Escape')
    await page.goto(new URL(meeting.server.link('moderator')).pathname)
    await page.getByRole('heading', { name: messages.join.conductTitle }).waitFor()
    expect(await seriousFaults(page)).toEqual([])
    await page.goto('/join/unknown')
    await page.getByRole('heading', { name: messages.join.unknown }).waitFor()
    expect(await seriousFaults(page)).toEqual([])
  })

  it('has no serious fault on the programme with its invitations', async () => {
    await drawIn(theme, owner)
    const { page } = owner
    await page.goto('/')
    await page.getByRole('heading', { level: 2 }).first().getByRole('link').click()
    await page.getByRole('button', { name: invitations.invite }).click()
    await page.getByRole('dialog').waitFor()
    expect(await seriousFaults(page)).toEqual([])
    await page.keyboard.press('Escape')
    expect(await seriousFaults(page)).toEqual([])
  })

  it('has no serious fault in any pane of the board', async () => {
    await drawIn(theme, moderator)
    const { page } = moderator
    for (const pane of panes) {
      await showPane(page, pane)
      expect([pane, await seriousFaults(page)]).toEqual([pane, []])
    }
  })

  it('has no serious fault in the forms and dialogs of the board', async () => {
    const { page } = moderator
    const opened: readonly (readonly [(typeof panes)[number], string])[] = [
      ['hearing', hearing.test.enter],
      ['hearing', hearing.test.import],
      ['hearing', hearing.notes.add],
      ['decisions', decisions.contingency.add],
      ['steps', steps.add],
      ['steps', steps.usual],
      // A prerequisite is open: why does one go on?
      ['steps', steps.named(steps.begin, 'Coupling test')],
    ]
    for (const [pane, button] of opened) {
      await (await showPane(page, pane)).getByRole('button', { name: button, exact: true }).click()
      expect([button, await seriousFaults(page)]).toEqual([button, []])
      await page.keyboard.press('Escape')
    }
    for (const name of [board.openMenu, /^Who is here/]) {
      await page.getByRole('button', { name }).click()
      await page.getByRole('dialog').waitFor()
      expect([String(name), await seriousFaults(page)]).toEqual([String(name), []])
      await page.keyboard.press('Escape')
    }
  })

  it('has no serious fault on main screen, theatre view, handout, check of a code, follow-up and report', async () => {
    const { page } = moderator
    const start = caseOf(page)
    for (const name of pagesOfCase) {
      await page.goto(`${start}/${name}`)
      await page.getByRole('heading').first().waitFor()
      expect([name, await seriousFaults(page)]).toEqual([name, []])
    }
    await page.goto(start)
  })
})

it('has no serious fault on a phone', async () => {
  await drawIn('theatre', phone)
  for (const pane of panes) {
    await showPane(phone.page, pane)
    expect([pane, await seriousFaults(phone.page)]).toEqual([pane, []])
  }
})

it('never makes a phone 360 px wide scroll sideways', async () => {
  const { page } = phone
  for (const pane of panes) {
    await showPane(page, pane)
    expect([pane, await overflowPx(page)]).toEqual([pane, 0])
  }
  const start = caseOf(page)
  for (const path of [...pagesOfCase.map((name) => `${start}/${name}`), '/', '/join/unknown']) {
    await page.goto(path)
    await page.getByRole('heading').first().waitFor()
    expect([path, await overflowPx(page)]).toEqual([path, 0])
  }
  await owner.page.setViewportSize(screens.phone)
  await owner.page.goto('/')
  await owner.page.getByRole('heading', { level: 2 }).first().getByRole('link').click()
  await owner.page.getByRole('button', { name: invitations.invite }).waitFor()
  expect(await overflowPx(owner.page)).toBe(0)
})

it('writes no text on the panel’s phone smaller than 12 px', async () => {
  const { page } = phone
  await page.goto(caseOf(moderator.page))
  for (const pane of panes) {
    await showPane(page, pane)
    const tooSmall = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('main :not([aria-hidden=true], [aria-hidden=true] *)')]
        .filter((element) => [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim()))
        .filter((element) => element.checkVisibility() && element.closest('svg') === null)
        .filter((element) => Number.parseFloat(getComputedStyle(element).fontSize) < 12)
        .map((element) => element.textContent),
    )
    expect([pane, tooSmall]).toEqual([pane, []])
  }
})
