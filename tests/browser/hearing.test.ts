import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { allSee, Meeting, type Participant, paneOf, showPane } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { audiogram, floor, hearing, measures, words } = messages
let meeting: Meeting
let moderator: Participant, team: Participant, panelOne: Participant, panelTwo: Participant, observer: Participant
let everybody: readonly Participant[]

beforeAll(async () => {
  meeting = await Meeting.open()
  const five = await meeting.joinFive(await meeting.server.createCase('Case Heron'))
  ;({ moderator, team, panelOne, panelTwo, observer, everybody } = five)
  await Promise.all(everybody.map(({ page }) => showPane(page, 'hearing')))
}, 600_000)
afterAll(() => meeting.close())

const pane = (page: Page): Locator => paneOf(page, 'hearing')
const chart = (page: Page): Locator => pane(page).getByRole('img').first()

/** Where the lines of a frequency and a level cross, read off the numbers at the axes as a person does. */
async function crossing(page: Page, hz: number, dbHl: number): Promise<{ x: number; y: number }> {
  const [column, row] = await Promise.all(
    [hz, dbHl].map((number) => chart(page).getByText(String(number), { exact: true }).first().boundingBox()),
  )
  if (!column || !row) throw new Error(`The axes show no ${hz} Hz or no ${dbHl} dB HL.`)
  return { x: column.x + column.width / 2, y: row.y + row.height / 2 }
}

async function press(page: Page, hz: number, dbHl: number): Promise<void> {
  await chart(page).scrollIntoViewIfNeeded()
  const { x, y } = await crossing(page, hz, dbHl)
  await page.mouse.click(x, y)
}

const chooseMode = (page: Page, mode: keyof typeof hearing.modes): Promise<void> =>
  pane(page).getByRole('radio', { name: hearing.modes[mode] }).check()

const cell = (page: Page, row: string, hz: number): Locator =>
  pane(page)
    .getByRole('grid')
    .getByRole('textbox', { name: hearing.grid.cell(row, hz) })
const airRow = `${hearing.grid.row.air} ${hearing.grid.unmasked}`

/** What the table beside the chart says, as a screen reader goes through it. */
const numbers = (page: Page): Locator => pane(page).getByRole('table').first()
const reads = (page: Page, value: string): Locator => numbers(page).getByRole('cell', { name: value, exact: true })

it('shows a test that the team enters to everybody', async () => {
  const { page } = team
  await pane(page).getByRole('button', { name: hearing.test.enter }).click()
  const dialog = page.getByRole('dialog', { name: hearing.newTest.title })
  await dialog.getByLabel(hearing.newTest.ear, { exact: true }).selectOption({ label: words.ear.right })
  await dialog.getByRole('button', { name: hearing.newTest.submit }).click()
  await allSee(everybody, (where) =>
    pane(where).getByRole('button', { name: new RegExp(`${audiogram.testStates.current}.*right ear, unaided`) }),
  )
})

it('takes thresholds by presses on the chart, and everybody reads them in the table', async () => {
  const { page } = team
  await chooseMode(page, 'plot')
  await press(page, 1000, 40)
  await press(page, 2000, 50)
  await pane(page)
    .getByText(hearing.brush.lastEntered(audiogram.readout('right', 'air', 2000, '50 dB HL')))
    .waitFor()
  for (const { page: where } of everybody) await pane(where).getByLabel(hearing.numbers).check()
  await allSee(everybody, (where) => reads(where, '40'))
  await allSee(everybody, (where) => reads(where, '50'))
})

it('takes thresholds by the keys of the grid: levels, minus, no response, could not test, nothing', async () => {
  const { page } = team
  await cell(page, airRow, 125).focus()
  await page.keyboard.type('-5')
  await page.keyboard.press('Enter')
  await page.keyboard.type('20')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowUp')
  await cell(page, airRow, 500).focus()
  await page.keyboard.type('35')
  await page.keyboard.press('Enter')
  await cell(page, airRow, 4000).focus()
  await page.keyboard.type('55')
  await page.keyboard.press('Enter')
  await cell(page, airRow, 8000).focus()
  await page.keyboard.type('95')
  await page.keyboard.press('n')
  await cell(page, airRow, 6000).focus()
  await page.keyboard.press('x')
  for (const value of ['−5', '20', '35', '55', audiogram.table.noResponse(95), audiogram.table.couldNotTest])
    await allSee(everybody, (where) => reads(where, value))
  await cell(page, airRow, 6000).focus()
  await page.keyboard.press('Delete')
  for (const { page: where } of everybody)
    await expect.poll(() => reads(where, audiogram.table.couldNotTest).count()).toBe(0)
})

it('shows averages with their convention as the numbers stand', async () => {
  // (35 + 40 + 50 + 55) / 4 over 0.5, 1, 2, 4 kHz.
  const mean = measures.level(45, false)
  await allSee(everybody, (page) => pane(page).getByText(mean).first())
  await pane(observer.page).locator('[data-measure="air-who"]').getByText(measures.conventions['air-who']).waitFor()
})

it('refuses a level out of range with the range, and accepts one off the 5 dB grid with a mark', async () => {
  const { page } = team
  const at3000 = cell(page, airRow, 3000)
  await at3000.focus()
  await page.keyboard.type('135')
  await page.keyboard.press('Enter')
  await pane(page).getByRole('alert').filter({ hasText: '130 dB HL' }).waitFor()
  expect(await at3000.inputValue()).toBe('135')
  await at3000.fill('53')
  await page.keyboard.press('Enter')
  await allSee(everybody, (where) => numbers(where).getByRole('cell', { name: '53' }))
  await at3000.focus()
  await pane(page).getByText(hearing.grid.offGrid).first().waitFor()
})

it('brings two people who enter the same threshold to the same number, and tells the one who is still typing', async () => {
  await chooseMode(moderator.page, 'look')
  const [mine, theirs] = [cell(team.page, airRow, 1500), cell(moderator.page, airRow, 1500)]
  await mine.focus()
  await team.page.keyboard.type('60')
  await theirs.focus()
  await moderator.page.keyboard.type('70')
  await moderator.page.keyboard.press('Enter')
  await pane(team.page).getByText(hearing.grid.nowReads('70', 'Mod Merlin')).waitFor()
  await team.page.keyboard.press('Enter')
  await allSee(everybody, (where) => reads(where, '60'))
  for (const { page } of everybody) expect(await reads(page, '70').count()).toBe(0)
})

it('shows where somebody points', async () => {
  const { page } = panelOne
  await chart(page).scrollIntoViewIfNeeded()
  const { x, y } = await crossing(page, 4000, 60)
  await page.mouse.move(x, y, { steps: 4 })
  await chart(team.page).getByText('Panel Plover').waitFor()
  await page.mouse.move(0, 0)
})

it('keeps pins and bands with text, writer and role', async () => {
  const { page } = team
  await chooseMode(page, 'pin')
  await press(page, 4000, 60)
  const dialog = page.getByRole('dialog', { name: hearing.notes.dialogTitle })
  await dialog.getByLabel(hearing.notes.text).fill('notch after the first operation')
  await dialog.getByRole('button', { name: hearing.notes.submit }).click()

  await pane(page).getByRole('button', { name: hearing.notes.add }).click()
  await dialog.getByLabel(hearing.notes.kind).selectOption('band')
  await dialog.getByLabel(hearing.notes.from).selectOption('2000')
  await dialog.getByLabel(hearing.notes.to).selectOption('4000')
  await dialog.getByLabel(hearing.notes.text).fill('what we operate for')
  await dialog.getByRole('button', { name: hearing.notes.submit }).click()
  await allSee(everybody, (where) => pane(where).getByText(hearing.notes.place.pin('right', 4000, 60)))
  await allSee(everybody, (where) => pane(where).getByText(hearing.notes.place.band('right', 2000, 4000)))
  const written = pane(observer.page).getByRole('listitem').filter({ hasText: 'notch after the first operation' })
  await written.getByText('Team Teal').waitFor()
})

it('lets a question point at the chart by a press', async () => {
  const { page } = panelOne
  await showPane(page, 'floor')
  await page.getByLabel(floor.ask.label).fill('Is this notch old?')
  await page.getByRole('button', { name: floor.anchor.point }).click()
  await press(page, 2000, 50)
  await paneOf(page, 'floor')
    .getByText(floor.place.pin('right', 2000, 50))
    .waitFor()
  await page.getByRole('button', { name: floor.ask.submit, exact: true }).click()
  await chart(team.page).getByText(audiogram.question(1)).waitFor()
})

it('names row and column of each fault of a pasted table, and imports what is right', async () => {
  const { page } = moderator
  await pane(page).getByRole('button', { name: hearing.test.import, exact: true }).click()
  const dialog = page.getByRole('dialog', { name: messages.hearingImport.title })
  const head = 'ear,route,masked,frequency_hz,level_db_hl,response'
  await dialog
    .getByLabel(messages.hearingImport.text)
    .fill(`${head}\nleft,air,no,1000,30,heard\nleft,air,no,2000,999,heard\nmiddle,air,no,4000,45,heard\n`)
  const faults = dialog.getByRole('table').filter({ hasText: messages.hearingImport.problem })
  await faults.getByRole('row', { name: /^3 level_db_hl .*999/ }).waitFor()
  await faults.getByRole('row', { name: /^4 ear .*middle/ }).waitFor()
  expect(await dialog.getByRole('button', { name: messages.hearingImport.submit(1) }).isDisabled()).toBe(true)
  await dialog
    .getByLabel(messages.hearingImport.text)
    .fill(
      `${head}\n${[500, 1000, 2000, 4000].map((hz) => `left,air,no,${hz},25,heard\nleft,bone,no,${hz},15,heard`).join('\n')}\n`,
    )
  await dialog.getByRole('button', { name: messages.hearingImport.submit(1) }).click()
  await allSee(everybody, (where) =>
    pane(where).getByRole('button', { name: new RegExp(`${audiogram.testStates.current}.*left ear, unaided`) }),
  )
})

it('closes a verified test, and makes a superseded one unmistakable', async () => {
  const { page } = team
  const right = (where: Page, state: string) =>
    pane(where)
      .getByRole('listitem')
      .filter({ has: where.getByRole('button', { name: new RegExp(`${state}.*right ear, unaided`) }) })
  await right(page, audiogram.testStates.current).getByRole('button', { name: hearing.test.verify }).click()
  await page
    .getByRole('dialog', { name: hearing.test.verifyTitle })
    .getByRole('button', { name: hearing.test.verify })
    .click()
  await allSee(everybody, (where) =>
    pane(where).getByRole('button', { name: /right ear, unaided.*verified by Team Teal/ }),
  )
  await right(page, audiogram.testStates.current)
    .getByRole('button', { name: /right ear, unaided/ })
    .click()
  await pane(page).getByText(hearing.test.closedForEditing).waitFor()

  await pane(page).getByRole('button', { name: hearing.test.enter }).click()
  const dialog = page.getByRole('dialog', { name: hearing.newTest.title })
  await dialog.getByLabel(hearing.newTest.ear, { exact: true }).selectOption({ label: words.ear.right })
  await dialog.getByLabel(hearing.newTest.reason).fill('measured again after the first fitting')
  await dialog.getByRole('button', { name: hearing.newTest.submit }).click()
  await allSee(everybody, (where) =>
    right(where, audiogram.testStates.superseded).getByText('measured again after the first fitting'),
  )
})

it('gives panel and observer everything to read and no way to enter', async () => {
  for (const { page } of [panelTwo, observer]) {
    for (const name of [hearing.test.enter, hearing.test.import, hearing.test.verify, hearing.notes.add])
      expect(await pane(page).getByRole('button', { name, exact: true }).count()).toBe(0)
    expect(await pane(page).getByRole('grid').count()).toBe(0)
    expect(await pane(page).getByRole('radio', { name: hearing.modes.plot }).count()).toBe(0)
  }
})
