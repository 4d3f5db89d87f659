import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  allSee,
  fillJoinForm,
  isOpen,
  isStored,
  Meeting,
  type Participant,
  paneOf,
  rowOf,
  showPane,
} from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { decisions, floor, hearing, postGuard, shell, steps } = messages

/** Markup of the kinds that would run if a page ever took text for markup: it leaves a mark on the window. */
const markup =
  '<img src=x onerror="window.executed=1"><script>window.executed=1</script>"><svg onload="window.executed=1">'
const longText = 'tone '.repeat(20_000)

let meeting: Meeting
let caseId: string
let team: Participant, panel: Participant, observer: Participant

beforeAll(async () => {
  meeting = await Meeting.open()
  caseId = await meeting.server.createCase(`Case ${markup.slice(0, 60)}`)
  ;[team, panel, observer] = await Promise.all([
    meeting.joinCase(caseId, 'team', 'Team Teal'),
    meeting.joinCase(caseId, 'panel', markup.slice(0, 60)),
    meeting.joinCase(caseId, 'observer', 'Obs Osprey'),
  ])
}, 600_000)
afterAll(() => meeting.close())

const everybody = (): readonly Participant[] => [team, panel, observer]

/** Posts although the text may look as if it identified somebody. */
async function postAnyway(page: Page): Promise<void> {
  const anyway = page.getByRole('dialog', { name: postGuard.title }).getByRole('button', { name: postGuard.postAnyway })
  if (await anyway.isVisible()) await anyway.click()
}

async function paste({ context, page }: Participant, into: Locator, text: string): Promise<void> {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  await page.evaluate((all) => navigator.clipboard.writeText(all), text)
  await into.focus()
  await page.keyboard.press('Control+V')
}

describe('a table to import', () => {
  let dialog: Locator
  const source = () => dialog.getByLabel(messages.hearingImport.text)
  const head = 'ear,route,masked,frequency_hz,level_db_hl,response'
  const file = (text: string, encoding: 'utf8' | 'utf16le') => ({
    name: 'table.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(text, encoding),
  })

  beforeAll(async () => {
    const pane = await showPane(team.page, 'hearing')
    await pane.getByRole('button', { name: hearing.test.import, exact: true }).click()
    dialog = team.page.getByRole('dialog', { name: messages.hearingImport.title })
  })
  afterAll(async () => {
    await dialog.getByRole('button', { name: shell.close }).click()
  })

  const refused = async (sentence: RegExp | string) => {
    await dialog.getByText(sentence).first().waitFor()
    expect(await dialog.getByRole('button', { name: /^Import \d/ }).isDisabled()).toBe(true)
  }

  it('with wrong columns is refused with those that are missing and those that were found', async () => {
    await source().fill('side of head,tone\nright,1000\n')
    await refused(/Missing: .*route.*Found: .*"tone"/)
  })

  it('with wrong units is refused instead of guessed', async () => {
    await source().fill('ear,route,masked,frequency_hz,level_db_spl\nright,air,no,1000,40\n')
    await refused(/level_db_spl.* is in another unit/)
  })

  it('with 3,000 rows is refused with the limit, at once', async () => {
    await source().fill('')
    await paste(team, source(), `${head}\n${'right,air,no,1000,40,heard\n'.repeat(3000)}`)
    await refused(/There are 3,000 rows/)
  })

  it('with markup in every cell says so as text', async () => {
    await source().fill(
      `${head}\n${head
        .split(',')
        .map(() => `"${markup.replaceAll('"', '""')}"`)
        .join(',')}\n`,
    )
    await refused(/<img src=x/)
  })

  it('with comma decimals, in UTF-16, is read, and levels between the steps are marked', async () => {
    const text = 'ear;route;masked;frequency_hz;level_db_hl\r\nright;air;no;1000;42,5\r\nright;air;no;2000;50\r\n'
    await dialog.getByLabel(messages.hearingImport.choose).setInputFiles(file(`\ufeff${text}`, 'utf16le'))
    await dialog.getByText(/read as utf-16le/).waitFor()
    await dialog.getByText(/between the 5 dB steps/).waitFor()
    expect(await dialog.getByRole('button', { name: messages.hearingImport.submit(1) }).isEnabled()).toBe(true)
  })

  it('with the ears exchanged asks to compare them with the source first', async () => {
    const table = (right: number, left: number) =>
      `${head}\n${[500, 1000, 2000, 4000]
        .flatMap((hz) => [`right,air,no,${hz},${right},heard`, `left,air,no,${hz},${left},heard`])
        .join('\n')}\n`
    await source().fill(table(70, 15))
    await dialog.getByRole('button', { name: messages.hearingImport.submit(2) }).click()
    await dialog.waitFor({ state: 'hidden' })
    await paneOf(team.page, 'hearing').getByRole('button', { name: hearing.test.import, exact: true }).click()
    await source().fill(table(15, 70))
    await dialog.getByLabel(messages.hearingImport.reason, { exact: true }).fill('a newer test')
    await refused(messages.hearingImport.swapped)
    await dialog.getByLabel(messages.hearingImport.swappedCheck).check()
    expect(await dialog.getByRole('button', { name: messages.hearingImport.submit(2) }).isEnabled()).toBe(true)
  })
})

describe('a text of 100,000 characters', () => {
  it('as a question is counted and refused, and every letter of it is still there', async () => {
    await showPane(panel.page, 'floor')
    const field = panel.page.getByLabel(floor.ask.label)
    await field.fill(longText)
    await panel.page.getByText(/100,000 characters; there is room for/).waitFor()
    await field.press('Control+Enter')
    expect(await field.inputValue()).toBe(longText)
    expect(await paneOf(team.page, 'floor').getByText(longText.slice(0, 50)).count()).toBe(0)
    await field.fill('')
  })

  it('pasted into a note is refused with the room that there is', async () => {
    const { page } = team
    const pane = await showPane(page, 'decisions')
    await pane.getByRole('button', { name: decisions.note.add(decisions.kind.finding) }).click()
    const editor = pane.getByRole('textbox', { name: decisions.editor.label(decisions.kind.finding) })
    await editor.focus()
    await page.keyboard.type('Short.')
    await paste(team, editor, longText)
    await pane
      .getByRole('alert')
      .filter({ hasText: /characters were pasted/ })
      .waitFor()
    expect(await editor.textContent()).toContain('Short.')
    expect(await editor.textContent()).not.toContain('tone')
    await page.keyboard.press('Escape')
    await isStored(page)
  })

  it('as the text of a pin is counted and refused, and kept', async () => {
    const { page } = team
    const pane = await showPane(page, 'hearing')
    await pane.getByRole('button', { name: hearing.notes.add }).click()
    const dialog = page.getByRole('dialog', { name: hearing.notes.dialogTitle })
    await dialog.getByLabel(hearing.notes.text).fill(longText)
    await dialog.getByRole('button', { name: hearing.notes.submit }).click()
    await dialog.getByText(/characters; there is room for 300/).waitFor()
    expect(await dialog.getByLabel(hearing.notes.text).inputValue()).toBe(longText)
    await dialog.getByRole('button', { name: shell.cancel }).click()
  })
})

describe('markup in every field', () => {
  it('is shown as it was typed on the floor', async () => {
    const { page } = panel
    await page.getByLabel(floor.ask.label).fill(markup)
    await page.getByLabel(floor.ask.label).press('Control+Enter')
    await postAnyway(page)
    await Promise.all(everybody().map(({ page: where }) => showPane(where, 'floor')))
    const row = (where: Page) => rowOf(paneOf(where, 'floor'), markup)
    await allSee(everybody(), row)
    await row(team.page).getByRole('button', { name: markup, exact: true }).focus()
    await team.page.keyboard.press('r')
    await team.page.getByLabel(floor.form.reply).fill(`reply ${markup}`)
    await team.page.keyboard.press('Control+Enter')
    await postAnyway(team.page)
    await row(panel.page).getByRole('button', { name: markup, exact: true }).click()
    await row(panel.page).getByText(`reply ${markup}`).waitFor()
  })

  it('is shown as it was typed in notes, contingencies, steps and pins', async () => {
    const { page } = team
    const pane = await showPane(page, 'decisions')
    await pane.getByRole('button', { name: decisions.note.add(decisions.kind.decision) }).click()
    await pane.getByRole('textbox', { name: decisions.editor.label(decisions.kind.decision) }).focus()
    await page.keyboard.insertText(`note ${markup}`)
    await page.keyboard.press('Escape')
    await pane.getByRole('button', { name: decisions.contingency.add }).click()
    await pane.getByRole('radio', { name: decisions.contingency.found }).check()
    await pane.getByLabel(decisions.contingency.finding).fill(`finding ${markup}`)
    await pane.getByLabel(decisions.contingency.plan).fill(`plan ${markup}`)
    await pane.getByRole('button', { name: decisions.contingency.save }).click()
    await postAnyway(page)

    const list = await showPane(page, 'steps')
    await list.getByRole('button', { name: steps.add }).click()
    const step = page.getByRole('dialog', { name: steps.addTitle })
    await step.getByLabel(steps.title, { exact: true }).fill(`step ${markup}`)
    await step.getByRole('button', { name: steps.add }).click()

    const chart = await showPane(page, 'hearing')
    await chart.getByRole('button', { name: hearing.notes.add }).click()
    const dialog = page.getByRole('dialog', { name: hearing.notes.dialogTitle })
    await dialog.getByLabel(hearing.notes.text).fill(`pin ${markup}`)
    await dialog.getByRole('button', { name: hearing.notes.submit }).click()
    await postAnyway(page)

    const { page: where } = observer
    await (await showPane(where, 'decisions')).getByText(`note ${markup}`).first().waitFor()
    await paneOf(where, 'decisions').getByText(`finding ${markup}`).first().waitFor()
    await paneOf(where, 'decisions').getByText(`plan ${markup}`).first().waitFor()
    await (await showPane(where, 'steps')).getByText(`step ${markup}`).first().waitFor()
    await (await showPane(where, 'hearing')).getByRole('listitem').getByText(`pin ${markup}`).waitFor()
  })

  it('runs nowhere: not on the board, nor on main screen, theatre view, handout and overview', async () => {
    for (const { page } of everybody()) expect(await page.evaluate(() => 'executed' in window)).toBe(false)
    const { page } = observer
    for (const path of [`/case/${caseId}/screen`, `/case/${caseId}/theatre`, `/case/${caseId}/handout`, '/']) {
      await page.goto(path)
      await page.getByRole('heading').first().waitFor({ state: 'attached' })
      expect([path, await page.evaluate(() => 'executed' in window)]).toEqual([path, false])
    }
  })

  it('in the name of somebody who joins is a name', async () => {
    const visitor = await meeting.visitor('Markup')
    await visitor.page.goto(
      await meeting.server.invite({ role: 'panel', label: markup, scope: { kind: 'case', id: caseId } }),
    )
    await fillJoinForm(visitor.page, 'panel', markup.slice(0, 70))
    await isOpen(visitor.page)
    expect(await visitor.page.evaluate(() => 'executed' in window)).toBe(false)
  })
})
