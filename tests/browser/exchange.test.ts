import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { strToU8, zipSync } from 'fflate'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { exchange } from '../../app/messages/en/exchange.ts'
import { hearingImport } from '../../app/messages/en/hearing-import.ts'
import { thresholdCodes } from '../../lib/interchange/fhir/codes.ts'
import { isOpen, Meeting, overflowPx, type Participant, seriousFaults } from '../support/browser.ts'
import { messages } from '../support/messages.ts'
import { makeTemporaryFolder, removeFolder } from '../support/temporary-folder.ts'

const { board } = messages
let here: Meeting
let elsewhere: Meeting
let folder: string
let team: Participant
let owner: Participant
let receiver: Participant

beforeAll(async () => {
  folder = await makeTemporaryFolder()
  await mkdir(folder, { recursive: true })
  ;[here, elsewhere] = await Promise.all([Meeting.open({ demo: true }), Meeting.open()])
  ;[team, owner, receiver] = await Promise.all([
    here.joinByLink('Heron', 'team', 'Team Teal', { screen: 'laptop' }),
    here.joinBy(here.server.ownerLink, 'moderator', 'Owner Owl', { screen: 'laptop' }),
    elsewhere.joinBy(elsewhere.server.ownerLink, 'moderator', 'Owner Else', { screen: 'laptop' }),
  ])
  // A browser complains of every answer of 400 and more that a page asked for.
  for (const meeting of [here, elsewhere]) meeting.allow(/status of 4(09|10|13|22|03)/)
}, 600_000)
afterAll(async () => {
  await Promise.all([here.close(), elsewhere.close()])
  await removeFolder(folder)
})

const file = (name: string) => join(folder, name)

async function openExchange(page: Page) {
  await page.getByRole('button', { name: board.openMenu }).click()
  await page.getByRole('button', { name: board.exchange }).click()
  const dialog = page.getByRole('dialog', { name: exchange.title })
  await dialog.waitFor()
  return dialog
}

async function download(page: Page, what: keyof typeof exchange.outs, name: string): Promise<void> {
  const dialog = await openExchange(page)
  const [saved] = await Promise.all([
    page.waitForEvent('download'),
    dialog.getByRole('link', { name: exchange.outs[what] }).click(),
  ])
  await saved.saveAs(file(name))
  await page.keyboard.press('Escape')
  await dialog.waitFor({ state: 'hidden' })
}

describe('export', () => {
  it('gives the whole case, FHIR and tables from the menu of the case', async () => {
    const dialog = await openExchange(team.page)
    expect(await seriousFaults(team.page)).toEqual([])
    await team.page.keyboard.press('Escape')
    await dialog.waitFor({ state: 'hidden' })
    await download(team.page, 'archive', 'heron.zip')
    await download(team.page, 'fhir', 'heron.json')
    await download(team.page, 'statistics', 'tables.zip')
    expect((await readFile(file('heron.zip'))).subarray(0, 2).toString()).toBe('PK')
    expect(JSON.parse(await readFile(file('heron.json'), 'utf8'))).toMatchObject({ resourceType: 'Bundle' })
  })

  it('is offered to nobody of panel and audience', async () => {
    const panel = await here.joinByLink('Heron', 'panel', 'Panel Plover', { screen: 'phone' })
    await panel.page.getByRole('button', { name: board.openMenu }).click()
    await panel.page.getByRole('button', { name: board.showKeys }).waitFor()
    expect(await panel.page.getByRole('button', { name: board.exchange }).count()).toBe(0)
    await panel.context.close()
  })
})

describe('tests from FHIR', () => {
  const bundle = (observations: object[], more: object = {}) =>
    JSON.stringify({
      resourceType: 'Bundle',
      type: 'searchset',
      entry: [{ resource: { resourceType: 'Patient', id: 'p' } }, ...observations.map((resource) => ({ resource }))],
      ...more,
    })
  const threshold = (code: string, quantity: object) => ({
    resourceType: 'Observation',
    status: 'final',
    code: { coding: [{ system: 'http://loinc.org', code }] },
    subject: { reference: 'Patient/p' },
    effectiveDateTime: '2020-02-03',
    valueQuantity: quantity,
  })

  it('of this very case are here already, and nothing is offered', async () => {
    const dialog = await openExchange(team.page)
    await dialog.getByLabel(exchange.choose).setInputFiles(file('heron.json'))
    await dialog.getByText(exchange.nothingNew).waitFor()
    expect(await dialog.getByText(exchange.standing.same).count()).toBeGreaterThan(0)
    await team.page.keyboard.press('Escape')
  })

  it('of R5, of another patient or cut short are refused in a sentence', async () => {
    const own = JSON.parse(await readFile(file('heron.json'), 'utf8')) as {
      entry: { resource: { resourceType: string } }[]
    }
    const r5 = { ...own, meta: { profile: ['http://hl7.org/fhir/StructureDefinition/Bundle|5.0.0'] } }
    const other = JSON.stringify(own).replaceAll(/"value":\s*"Case Heron"|"value":\s*"Heron"/g, '"value":"Crane"')
    const cases: [string, string, RegExp][] = [
      ['r5.json', JSON.stringify(r5), /FHIR 5\.0\.0/],
      ['other.json', other, /These are tests of Crane/],
      ['cut.json', JSON.stringify(own).slice(0, 400), /cut short/],
    ]
    const dialog = await openExchange(team.page)
    for (const [name, text, sentence] of cases) {
      await writeFile(file(name), text)
      await dialog.getByLabel(exchange.choose).setInputFiles(file(name))
      await dialog.getByText(sentence).waitFor()
      expect(await dialog.getByRole('button', { name: /^Enter/ }).count()).toBe(0)
    }
    await team.page.keyboard.press('Escape')
  })

  it('of another system are shown with what is left out, and entered once somebody says whose they are', async () => {
    await writeFile(
      file('foreign.json'),
      bundle([
        threshold('89025-1', { value: 40, unit: 'dB', code: 'dB' }),
        threshold('89017-8', { value: 45, unit: 'dB', code: 'dB' }),
        threshold('89019-4', { value: 50 }),
      ]),
    )
    const dialog = await openExchange(team.page)
    await dialog.getByLabel(exchange.choose).setInputFiles(file('foreign.json'))
    await dialog.getByText(/a level without its unit/).waitFor()
    const enter = dialog.getByRole('button', { name: exchange.enter(1) })
    expect(await enter.isDisabled()).toBe(true)
    expect(await seriousFaults(team.page)).toEqual([])
    await dialog.getByLabel(exchange.unknownPatient).check()
    await enter.click()
    await dialog.waitFor({ state: 'hidden' })
    await team.page.getByText(exchange.entered(1)).waitFor()
    const again = await openExchange(team.page)
    await again.getByLabel(exchange.choose).setInputFiles(file('foreign.json'))
    await again.getByText(exchange.nothingNew).waitFor()
    await team.page.keyboard.press('Escape')
  })
})

describe('tests from FHIR into a case that was operated on', () => {
  let surgeon: Participant
  beforeAll(async () => {
    surgeon = await here.joinCase('demo-curlew', 'team', 'Team Tern', { screen: 'phone' })
  })
  afterAll(() => surgeon.context.close())

  /** Air conduction of both ears on one day, in the order of 0.5, 1, 2 and 4 kHz. */
  const audiogram = (day: string, levels: Readonly<Record<'right' | 'left', readonly number[]>>) =>
    (['right', 'left'] as const).flatMap((ear) =>
      ([500, 1000, 2000, 4000] as const).map((frequency, index) => ({
        resourceType: 'Observation',
        status: 'final',
        code: { coding: [{ system: 'http://loinc.org', code: thresholdCodes[ear][frequency] }] },
        subject: { reference: 'Patient/p' },
        effectiveDateTime: day,
        valueQuantity: { value: levels[ear][index], unit: 'dB', code: 'dB' },
      })),
    )
  const bundle = (observations: readonly object[]) =>
    JSON.stringify({
      resourceType: 'Bundle',
      type: 'searchset',
      entry: [{ resource: { resourceType: 'Patient', id: 'p' } }, ...observations.map((resource) => ({ resource }))],
    })
  async function choose(name: string, text: string) {
    await writeFile(file(name), text)
    const dialog = await openExchange(surgeon.page)
    await dialog.getByLabel(exchange.choose).setInputFiles(file(name))
    return dialog
  }
  const left = [65, 65, 60, 65]
  const right = [30, 35, 45, 55]

  it('warns when right and left look exchanged, and enters them only once somebody has compared', async () => {
    const dialog = await choose('swapped.json', bundle(audiogram('2020-02-03', { right: left, left: right })))
    await dialog.getByText(hearingImport.swapped).waitFor()
    await dialog.getByLabel(exchange.unknownPatient).check()
    const enter = dialog.getByRole('button', { name: exchange.enter(2) })
    expect(await enter.isDisabled()).toBe(true)
    expect(await overflowPx(surgeon.page)).toBe(0)
    expect(await seriousFaults(surgeon.page)).toEqual([])
    await dialog.getByLabel(hearingImport.swappedCheck).check()
    expect(await enter.isDisabled()).toBe(false)
    await surgeon.page.keyboard.press('Escape')
  })

  it('is silent about ears that stand where they stood', async () => {
    const dialog = await choose('straight.json', bundle(audiogram('2020-02-03', { right, left })))
    await dialog.getByRole('button', { name: exchange.enter(2) }).waitFor()
    expect(await dialog.getByText(hearingImport.swapped).count()).toBe(0)
    await surgeon.page.keyboard.press('Escape')
  })

  it('leaves out a day that has not come, and a visit before the operation, each in a sentence', async () => {
    const future = await choose('future.json', bundle(audiogram('2099-01-01', { right, left })))
    await future
      .getByText(/2099-01-01 has not come yet/)
      .first()
      .waitFor()
    expect(await future.getByRole('button', { name: /^Enter/ }).count()).toBe(0)
    await surgeon.page.keyboard.press('Escape')
    await download(surgeon.page, 'fhir', 'curlew.json')
    const own = await readFile(file('curlew.json'), 'utf8')
    const dialog = await choose(
      'early.json',
      own.replaceAll(/"effectiveDateTime":\s*"20\d\d-\d\d-\d\d"/g, '"effectiveDateTime":"2020-01-01"'),
    )
    await dialog
      .getByText(/a test of a visit on 2020-01-01, before the operation on/)
      .first()
      .waitFor()
    await surgeon.page.keyboard.press('Escape')
  })
})

describe('a case on another installation', () => {
  async function openTakeIn(page: Page) {
    await page.getByRole('button', { name: exchange.takeIn }).click()
    const dialog = page.getByRole('dialog', { name: exchange.takeIn })
    await dialog.waitFor()
    return dialog
  }

  it('is refused in a sentence while the file is no honest archive, and nothing appears', async () => {
    const { overview } = messages
    const { page } = receiver
    await page.goto('/')
    await page.getByRole('button', { name: overview.newProgramme }).click()
    await page.getByLabel(overview.programmeLabel).fill('Clinic')
    await page.keyboard.press('Enter')
    await page.getByRole('link', { name: 'Clinic' }).click()
    const whole = await readFile(file('heron.zip'))
    await writeFile(file('cut.zip'), whole.subarray(0, whole.length / 2))
    await writeFile(file('bomb.zip'), zipSync({ 'records.json': new Uint8Array(60 * 1024 * 1024) }, { level: 9 }))
    await writeFile(file('large.zip'), new Uint8Array(140 * 1024 * 1024))
    await writeFile(file('climbs.zip'), zipSync({ '../evil.json': strToU8('x') }))
    const dialog = await openTakeIn(page)
    for (const [name, sentence] of [
      ['cut.zip', /cut short/],
      ['bomb.zip', /would unpack to far more/],
      ['large.zip', /The file has 140 MB/],
      ['climbs.zip', /a name that no archive/],
      ['heron.json', /no zip file/],
    ] as const) {
      await dialog.getByLabel(exchange.archiveFile).setInputFiles(file(name))
      await dialog.getByText(sentence).waitFor()
      expect(await dialog.getByRole('button', { name: exchange.takeInNow }).count()).toBe(0)
    }
    await page.keyboard.press('Escape')
    await page.getByText(overview.noCases).waitFor()
  })

  it('is shown, taken in, and opens with its tests and questions', async () => {
    const { page } = receiver
    const dialog = await openTakeIn(page)
    await dialog.getByLabel(exchange.archiveFile).setInputFiles(file('heron.zip'))
    await dialog.getByText(exchange.standings.new).waitFor()
    expect(await seriousFaults(page)).toEqual([])
    expect(await overflowPx(page)).toBe(0)
    await dialog.getByRole('button', { name: exchange.takeInNow }).click()
    await dialog.waitFor({ state: 'hidden' })
    await page.getByRole('link', { name: 'Heron', exact: true }).click()
    await page.getByRole('navigation', { name: board.panes }).waitFor()
    await isOpen(page)
    await page.goBack()
    const again = await openTakeIn(page)
    await again.getByLabel(exchange.archiveFile).setInputFiles(file('heron.zip'))
    await again.getByText(exchange.standings.same).waitFor()
    await page.keyboard.press('Escape')
  })
})

describe('erasing', () => {
  const copies = (page: Page) =>
    page.evaluate(async () => (await indexedDB.databases()).filter(({ name }) => name?.includes('demo-heron')).length)

  it('asks for the name of the case, leaves a receipt, and takes the case from whoever has it open', async () => {
    const { page } = owner
    await page.goto('/programme/demo')
    await page.getByRole('button', { name: exchange.eraseCase('Heron') }).click()
    const dialog = page.getByRole('dialog', { name: exchange.eraseCase('Heron') })
    await dialog.getByLabel(exchange.eraseTyped('Heron')).fill('Plover')
    await dialog.getByRole('button', { name: exchange.eraseNow }).click()
    await dialog.getByText(exchange.eraseMismatch('Heron')).waitFor()
    expect(await seriousFaults(page)).toEqual([])
    await dialog.getByLabel(exchange.eraseTyped('Heron')).fill('Heron')
    // The team is away: its browser keeps a copy.
    expect(await copies(team.page)).toBeGreaterThan(0)
    await team.page.goto('about:blank')
    await dialog.getByRole('button', { name: exchange.eraseNow }).click()
    // The row of the case is gone, and the receipt stands until it was read.
    await page.getByRole('button', { name: exchange.eraseCase('Heron') }).waitFor({ state: 'detached' })
    await page.getByText(exchange.receipts).waitFor()
    await dialog.getByText(/case demo-heron, erased/).waitFor()
    await dialog.getByRole('button', { name: messages.shell.close }).last().click()
    await dialog.waitFor({ state: 'hidden' })
  })

  it('empties the copy of a browser that was away once it connects again', async () => {
    await team.page.goto('/case/demo-heron')
    await team.page.getByText(/has been erased/).waitFor()
    await expect.poll(() => copies(team.page), { timeout: 30_000 }).toBe(0)
  })

  it('keeps the receipt for the owner', async () => {
    await owner.page.goto('/programme/demo')
    await owner.page.getByText(exchange.receipts).click()
    await owner.page.getByText(/case demo-heron, erased/).waitFor()
  })
})
