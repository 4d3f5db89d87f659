import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { join } from '../../app/messages/fr/join.ts'
import { messages as french } from '../../app/messages/fr.ts'
import { languageCookie } from '../../app/messages/language.ts'
import { awayComplaints, Meeting, paneOf, showPane } from '../support/browser.ts'
import { messages as english } from '../support/messages.ts'
import { scriptWeight } from '../support/script-weight.ts'

let meeting: Meeting

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
}, 600_000)
afterAll(() => meeting.close())

describe('languages', () => {
  it('each person has their own on the same case, and keeps it', async () => {
    const moderator = await meeting.joinByLink('Heron', 'moderator', 'Mod Merlin', { screen: 'laptop' })
    const panel = await meeting.visitor('Panel Pinson', { screen: 'laptop' })
    await panel.page.goto(meeting.server.link('panel'))
    await panel.page.getByRole('combobox', { name: english.shell.language }).selectOption('fr')
    // What the page was asked for is there at once; its address and its fields stay as they were.
    await panel.page.getByLabel(join.name).fill('Panel Pinson')
    await panel.page.getByLabel(join.affiliation).fill('CHU')
    await panel.page.getByLabel(join.agree).check()
    await panel.page.getByRole('button', { name: join.joinAs(french.words.role.panel) }).click()
    await panel.page.getByRole('link', { name: 'Heron', exact: true }).click()
    await panel.page.getByRole('navigation', { name: french.board.panes }).waitFor()
    expect(await panel.page.locator('html').getAttribute('lang')).toBe('fr')
    expect(await moderator.page.locator('html').getAttribute('lang')).toBe('en')

    const floor = panel.page.getByRole('region', { name: french.floor.title, exact: true })
    if (!(await floor.isVisible()))
      await panel.page.getByRole('button', { name: french.board.paneShort.floor }).first().click()
    await floor.getByLabel(french.floor.ask.label).fill('La fenêtre ronde est-elle accessible ?')
    await floor.getByRole('button', { name: french.floor.ask.submit, exact: true }).click()
    await showPane(moderator.page, 'floor')
    await paneOf(moderator.page, 'floor').getByText('La fenêtre ronde est-elle accessible ?').waitFor()

    meeting.allow(awayComplaints)
    await meeting.server.kill9()
    await panel.page.getByText(french.board.away.offline.kept).waitFor()
    await meeting.server.restart()
    await panel.page.reload()
    await panel.page.getByRole('navigation', { name: french.board.panes }).waitFor()
    expect(await panel.page.locator('html').getAttribute('lang')).toBe('fr')
  })

  it('the first load in French stays within the limit and has no English', async () => {
    const { context } = await meeting.joinByLink('Heron', 'panel', 'Panel Pie', { screen: 'laptop' })
    await context.addCookies([{ name: languageCookie, value: 'fr', url: meeting.server.url }])
    const page = await context.newPage()
    const scripts: Promise<string>[] = []
    page.on('response', (response) => {
      if (new URL(response.url()).pathname.endsWith('.js')) scripts.push(response.text().catch(() => ''))
    })
    const { firstView } = await scriptWeight(page, '/case/demo-heron')
    expect(firstView).toBeLessThanOrEqual(300_000)
    const all = (await Promise.all(scripts)).join('\n')
    expect(all).toContain(french.board.skipLinks)
    expect(all).not.toContain(english.board.skipLinks)
  })
})
