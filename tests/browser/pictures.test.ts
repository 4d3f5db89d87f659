import { deflateSync } from 'node:zlib'
import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { desk } from '../../app/messages/en/desk.ts'
import { pictures } from '../../app/messages/en/pictures.ts'
import { rewind } from '../../app/messages/en/rewind.ts'
import { withdraw } from '../../app/messages/en/withdraw.ts'
import { pictureLimits } from '../../lib/board/records/picture.ts'
import { bytesOf, jpegMetadata, jpegOf, jpegSegment, pngMetadata, pngOf, secret, utf8 } from '../fixtures/pictures.ts'
import { awayComplaints, Meeting, type Participant, seriousFaults, showPane } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const caption = 'Fascia over the niche, cable in its groove'
const earlier = 'Drawing: overhang of the niche gone, the window is seen whole'
let meeting: Meeting
let team: Participant, moderator: Participant, panel: Participant, observer: Participant, hall: Participant

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  ;[team, moderator, panel, observer, hall] = await Promise.all([
    meeting.joinByLink('Heron', 'team', 'Team Teal'),
    meeting.joinByLink('Heron', 'moderator', 'Mod Merlin'),
    meeting.joinByLink('Heron', 'panel', 'Panel Plover', { screen: 'phone' }),
    meeting.joinByLink('Heron', 'observer', 'Obs Osprey'),
    meeting.joinByLink('Heron', 'observer', 'Hall Heron', { screen: 'projector' }),
  ])
  await hall.page.goto(`${new URL(hall.page.url()).pathname}/screen`)
}, 600_000)
afterAll(() => meeting.close())

/** Noise, which no compression makes small: larger than a megabyte until it is reduced. */
const large = (() => {
  const [width, height] = [2400, 1800]
  const byte = (at: number) => (at % (width * 3 + 1) === 0 ? 0 : (Math.imul(at, 2654435761) >>> 24) & 255)
  const rows = Uint8Array.from({ length: height * (width * 3 + 1) }, (_, at) => byte(at))
  return pngOf({ width, height, packed: deflateSync(rows, { level: 1 }), before: pngMetadata })
})()
/** Exif that says: turn by 90 degrees to the right (TIFF 6.0, tag 274, value 6). */
const turned = jpegSegment(
  0xe1,
  bytesOf(
    utf8('Exif'),
    [0, 0],
    utf8('MM'),
    [0, 42, 0, 0, 0, 8, 0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0, 0, 0, 0, 0],
  ),
)
const file = (name: string, bytes: Uint8Array, mimeType = 'image/jpeg') => ({
  name,
  mimeType,
  buffer: Buffer.from(bytes),
})

const formOf = (page: Page): Locator => page.getByRole('dialog', { name: pictures.addTitle })
const viewOf = (page: Page): Locator => page.getByRole('dialog', { name: /^Photograph \d+ of \d+$/ })
const choose = (form: Locator, chosen: ReturnType<typeof file>) =>
  form.getByLabel(pictures.choose).setInputFiles(chosen)
const stepOf = (pane: Locator, title: RegExp): Locator => pane.getByRole('listitem').filter({ hasText: title }).first()
const niche = /Remove the overhang/

async function openForm(page: Page): Promise<Locator> {
  const step = stepOf(await showPane(page, 'steps'), niche)
  await step.getByRole('button', { name: pictures.add }).click()
  return formOf(page)
}

it('says what is wrong with a file, and what to do, before anything is sent', async () => {
  const form = await openForm(team.page)
  await form.getByText(pictures.caution).waitFor()
  expect(await seriousFaults(team.page)).toEqual([])
  const faults: readonly [ReturnType<typeof file>, string][] = [
    [file('field.jpg', new Uint8Array(40 * 1024 * 1024)), pictures.fault['too-large'](40, 30)],
    [file('field.jpg', jpegOf({ width: 64, height: 64 }).subarray(0, 120)), pictures.fault.broken],
    [file('field.png', utf8('not a picture at all'), 'image/png'), pictures.fault.broken],
    [file('IMG_0042.HEIC', utf8('ftypheic'), ''), pictures.fault.heic],
    [file('field.svg', utf8('<svg/>'), 'image/svg+xml'), pictures.fault['other-type']],
    [file('field.jpg', new Uint8Array()), pictures.fault.empty],
  ]
  for (const [chosen, sentence] of faults) {
    await choose(form, chosen)
    await form.getByText(sentence).waitFor()
    expect(await form.getByRole('button', { name: pictures.send }).isDisabled()).toBe(true)
  }
})

it('turns a picture as the camera was held', async () => {
  const form = formOf(team.page)
  await choose(form, file('field.jpg', jpegOf({ width: 80, height: 40, before: [turned] })))
  await form.getByText(/^40 by 80 pixels/).waitFor()
  await form.getByRole('button', { name: pictures.other }).click()
})

it('is kept in its form while the link is away, also when that is closed', async () => {
  meeting.allow(awayComplaints)
  const form = formOf(team.page)
  await choose(form, file('field.png', large, 'image/png'))
  await form.getByLabel(pictures.caption).fill(caption)
  await team.context.setOffline(true)
  await form.getByText(pictures.offline).waitFor()
  expect(await form.getByRole('button', { name: pictures.send }).isDisabled()).toBe(true)
  await team.page.keyboard.press('Escape')
  await form.waitFor({ state: 'hidden' })
  await team.context.setOffline(false)
  await openForm(team.page)
  expect(await form.getByLabel(pictures.caption).inputValue()).toBe(caption)
  await form.getByRole('button', { name: pictures.send }).and(team.page.locator(':enabled')).waitFor()
})

it('is made small, loses its metadata, and is seen by everybody on its step', async () => {
  const form = formOf(team.page)
  await form.getByRole('button', { name: pictures.send }).click()
  await form.waitFor({ state: 'hidden' })
  for (const { page } of [team, moderator, panel, observer]) {
    const step = stepOf(await showPane(page, 'steps'), niche)
    await step.getByRole('img', { name: caption }).waitFor()
  }
  const source = await stepOf(await showPane(panel.page, 'steps'), niche)
    .getByRole('img', { name: caption })
    .getAttribute('src')
  const response = await panel.context.request.get(source ?? '')
  const bytes = await response.body()
  expect(response.headers()['content-type']).toBe('image/jpeg')
  expect(bytes.length).toBeLessThanOrEqual(pictureLimits.bytes)
  expect(bytes.length).toBeGreaterThan(100_000)
  expect(bytes.toString('latin1')).not.toContain(secret)
})

it('opens large by keyboard, goes from one to the next, and takes another caption from its author alone', async () => {
  const { page } = team
  const step = stepOf(await showPane(page, 'steps'), niche)
  await step.getByRole('button', { name: caption }).focus()
  await page.keyboard.press('Enter')
  const view = viewOf(page)
  await view.getByText(caption).waitFor()
  await view.getByText('Team Teal').waitFor()
  expect(await seriousFaults(page)).toEqual([])
  await page.keyboard.press('ArrowLeft')
  await view.getByText(earlier).waitFor()
  expect(await view.getByRole('button', { name: pictures.changeCaption }).count()).toBe(0)
  await page.keyboard.press('ArrowRight')
  await view.getByRole('button', { name: pictures.changeCaption }).click()
  await view.getByLabel(pictures.caption).fill(`${caption}, dry`)
  await page.keyboard.press('Enter')
  await page.keyboard.press('Escape')
  await stepOf(await showPane(observer.page, 'steps'), niche)
    .getByRole('img', { name: `${caption}, dry` })
    .waitFor()
})

it('is put on the main screen by one key, whole and with its caption', async () => {
  const { page } = moderator
  await stepOf(await showPane(page, 'steps'), niche)
    .getByRole('button', { name: `${caption}, dry` })
    .click()
  await page.keyboard.press('s')
  await page.keyboard.press('Escape')
  const shown = hall.page.getByRole('img', { name: `${caption}, dry` })
  await shown.waitFor()
  await page.getByRole('banner').getByText(messages.board.onScreen.picture).waitFor()
  await expect
    .poll(() => shown.evaluate((image: HTMLImageElement) => image.complete && image.naturalWidth > 0))
    .toBe(true)
  const box = await shown.boundingBox()
  if (box === null) throw new TypeError('the picture is drawn')
  // Inside the safe margins of 5 % (EBU R 95), with the caption below it.
  expect(box.x).toBeGreaterThanOrEqual(96)
  expect(box.y).toBeGreaterThanOrEqual(54)
  expect(box.x + box.width).toBeLessThanOrEqual(1920 - 96)
  expect(box.y + box.height).toBeLessThanOrEqual(1080 - 54)
  expect(await shown.evaluate((image) => getComputedStyle(image).objectFit)).toBe('contain')
  await hall.page.getByText(`${caption}, dry`).waitFor()
})

it('takes a key each at the desk: P adds one to the step under way, N shows the newest', async () => {
  const { page } = moderator
  await page.goto(`${new URL(page.url()).pathname}/desk`)
  await page.getByText(desk.record.title).first().waitFor()
  await page
    .getByRole('img', { name: `${caption}, dry` })
    .first()
    .waitFor()
  await page.keyboard.press('Shift+P')
  const form = formOf(page)
  await choose(form, file('pasted.jpg', jpegOf({ width: 120, height: 90, before: jpegMetadata })))
  await form.getByText(/^120 by 90 pixels/).waitFor()
  expect(await form.getByLabel(pictures.step).locator('option:checked').textContent()).toMatch(niche)
  await form.getByRole('button', { name: pictures.send }).click()
  await form.waitFor({ state: 'hidden' })
  await page.getByText(pictures.sent).waitFor()
  await expect.poll(() => page.getByRole('img', { name: /^Photograph of \d\d:\d\d$/ }).count()).toBe(1)
  await page.keyboard.press('Shift+N')
  await hall.page.getByRole('img', { name: messages.screens.screen.picture }).waitFor()
})

it('stood at an earlier moment, and is looked at there', async () => {
  const { page } = team
  await page.getByRole('button', { name: messages.board.rewind }).click()
  await page.getByRole('slider', { name: rewind.moment }).focus()
  for (let minute = 0; minute < 10; minute++) await page.keyboard.press('Shift+ArrowLeft')
  await page.getByText(/As it was at/).waitFor()
  const pane = await showPane(page, 'steps')
  await pane.getByRole('img', { name: earlier }).waitFor()
  await pane.getByRole('img', { name: `${caption}, dry` }).waitFor({ state: 'hidden' })
  expect(await pane.getByRole('button', { name: pictures.add }).count()).toBe(0)
  await page.getByRole('button', { name: rewind.backToNow }).click()
})

it('is gone from every page, the main screen and its address once it is withdrawn', async () => {
  const source = await stepOf(await showPane(panel.page, 'steps'), niche)
    .getByRole('img', { name: `${caption}, dry` })
    .getAttribute('src')
  const { page } = moderator
  await page.keyboard.press('Shift+W')
  const dialog = page.getByRole('dialog', { name: withdraw.title })
  // The one on the main screen is chosen; this is another.
  await dialog.getByRole('button', { name: withdraw.other }).click()
  await dialog.getByRole('combobox', { name: withdraw.which }).fill('Fascia')
  await page.keyboard.press('Enter')
  await dialog.getByLabel(withdraw.reason).fill('A label is seen')
  await page.keyboard.press('Enter')
  await dialog.waitFor({ state: 'hidden' })
  for (const { page: other } of [moderator, team, panel, observer])
    await other
      .getByRole('img', { name: `${caption}, dry` })
      .first()
      .waitFor({ state: 'detached' })
  expect((await panel.context.request.get(source ?? '')).status()).toBe(404)
})
