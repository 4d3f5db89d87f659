import { fileURLToPath } from 'node:url'
import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { desk } from '../../app/messages/en/desk.ts'
import {
  awayComplaints,
  isStored,
  Meeting,
  overflowPx,
  type Participant,
  seriousFaults,
  showPane,
} from '../support/browser.ts'
import { CountedKeys } from '../support/counted-keys.ts'
import { messages } from '../support/messages.ts'

/** Two moderators at their desks, a panel of two (one on a phone) and an observer, at once. */
const { floor, words, board, ownQuestions } = messages
let meeting: Meeting
let caseId: string
let mod: Participant, second: Participant, panelOne: Participant, panelTwo: Participant, observer: Participant
let screen: Page, theatre: Page
let keys: CountedKeys

const deskOf = async ({ page }: Participant) => {
  await page.goto(`/case/${caseId}/desk`)
  await page.getByRole('heading', { name: desk.record.title }).waitFor()
  await isStored(page)
}
const zone = (page: Page, title: string): Locator => page.getByRole('region', { name: title, exact: true })
const rowIn = (page: Page, text: string): Locator =>
  zone(page, desk.floor.title)
    .getByRole('listitem')
    .filter({ has: page.getByRole('button', { name: text, exact: true }) })
const done = (page: Page, what: string): Locator => page.getByRole('status').getByText(what, { exact: true })
const onScreen = (page: Page, text: string): Locator => zone(page, desk.screen.now).getByText(text)
const line = (page: Page, text: string): Locator => zone(page, desk.record.title).getByText(text, { exact: true })

async function ask({ page }: Participant, text: string): Promise<void> {
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByRole('button', { name: floor.ask.submit, exact: true }).click()
  await Promise.all([rowIn(mod.page, text).waitFor(), rowIn(second.page, text).waitFor()])
}

/** Gives a question the focus by the keys alone, from wherever the focus was. */
async function focus(page: Page, text: string): Promise<void> {
  const words = rowIn(page, text).getByRole('button', { name: text, exact: true })
  await words.waitFor()
  for (const key of ['k', 'k', 'k', 'k', 'k', 'k', 'k', 'k', 'j', 'j', 'j', 'j', 'j', 'j', 'j', 'j', 'j']) {
    if (await words.evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press(key)
  }
  throw new Error(`the keys did not reach "${text}"`)
}

beforeAll(async () => {
  meeting = await Meeting.open()
  meeting.allow(awayComplaints)
  caseId = await meeting.server.createCase('Case Heron')
  ;[mod, second, panelOne, panelTwo, observer] = await Promise.all([
    meeting.joinCase(caseId, 'moderator', 'Mod Merlin', { screen: 'laptop' }),
    meeting.joinCase(caseId, 'moderator', 'Mod Magpie', { screen: 'projector', theme: 'theatre' }),
    meeting.joinCase(caseId, 'panel', 'Panel Plover'),
    meeting.joinCase(caseId, 'panel', 'Panel Pipit', { screen: 'phone' }),
    meeting.joinCase(caseId, 'observer', 'Obs Osprey'),
  ])
  screen = await observer.context.newPage()
  theatre = await observer.context.newPage()
  await Promise.all([
    screen.goto(`/case/${caseId}/screen`),
    theatre.goto(`/case/${caseId}/theatre`),
    showPane(panelOne.page, 'floor'),
    showPane(panelTwo.page, 'floor'),
    showPane(observer.page, 'floor'),
    deskOf(second),
  ])
  keys = new CountedKeys(mod.page)
}, 600_000)
afterAll(() => meeting.close())

it('is one key away from the board, and for moderators only', async () => {
  await mod.page.keyboard.press('k')
  await mod.page.waitForURL(/\/desk$/)
  await mod.page.getByRole('heading', { name: desk.record.title }).waitFor()
  expect(await panelOne.page.getByRole('link', { name: board.desk, exact: true }).count()).toBe(0)
  const stranger = await panelOne.context.newPage()
  await stranger.goto(`/case/${caseId}/desk`)
  await stranger.getByText(desk.notForYou).waitFor()
  await stranger.close()
})

it('names every key of the desk on one sheet', async () => {
  await mod.page.keyboard.press('?')
  const sheet = mod.page.getByRole('dialog', { name: board.showKeys })
  await sheet.getByText('j', { exact: true }).waitFor()
  for (const key of [
    'j',
    'k',
    'c',
    's',
    'a',
    'd',
    'x',
    'o',
    'f',
    'q',
    'y',
    'p',
    't',
    'n',
    'u',
    'i',
    'I',
    'm',
    '.',
    'l',
    'L',
    'z',
    'g',
    'P',
    'N',
    'W',
  ])
    expect([key, await sheet.getByText(key, { exact: true }).count()]).not.toEqual([key, 0])
  await mod.page.keyboard.press('Escape')
  await sheet.waitFor({ state: 'hidden' })
})

it('does the whole job of a moderator from the keyboard, each act in two keys at most and taken back by one', async () => {
  const { page } = mod
  for (const text of [
    'Is the footplate mobile?',
    'Is the footplate really mobile?',
    'What do we lose at 6 kHz?',
    'Camera brighter?',
  ])
    await ask(panelOne, text)
  await panelTwo.page.getByRole('button', { name: floor.act.back }).first().click()

  const undone = async (what: string, restored: () => Promise<void>) => {
    await keys.action(`take back: ${what}`, async () => {
      await keys.press('z')
      await page.getByText(desk.undo.taken(what)).waitFor()
      await restored()
    })
    await isStored(page)
  }
  const six = 'What do we lose at 6 kHz?'

  await focus(page, six)
  await keys.action('call a question to the theatre', async () => {
    await keys.press('c')
    await theatre.getByText(six).waitFor()
  })
  await undone(desk.done.called, () => theatre.getByText(six).waitFor({ state: 'hidden' }))
  await focus(page, six)
  await keys.action('a question to main screen and theatre', async () => {
    await keys.press('s')
    await Promise.all([screen.getByText(six).waitFor(), theatre.getByText(six).waitFor()])
  })
  await panelOne.page.getByText(ownQuestions.notice.called).waitFor()
  await undone(desk.done.onScreen, async () => {
    await screen.getByText(six).waitFor({ state: 'hidden' })
    await theatre.getByText(six).waitFor({ state: 'hidden' })
  })
  await focus(page, six)
  await keys.action('set aside', async () => {
    await keys.press('x')
    await rowIn(page, six).waitFor({ state: 'hidden' })
  })
  await undone(desk.done['set-aside'], () => rowIn(page, six).waitFor())
  await focus(page, six)
  await keys.action('defer to a visit', async () => {
    await keys.press('d')
    await keys.type('Six-month visit')
    await keys.press('Enter')
    await rowIn(page, six).waitFor({ state: 'hidden' })
  })
  await undone(desk.done.deferred, () => rowIn(page, six).waitFor())
  await focus(page, six)
  await keys.action('answer in one line', async () => {
    await keys.press('a')
    await keys.type('About 10 dB against the stapes head.')
    await keys.press('Enter')
    await line(page, 'About 10 dB against the stapes head.').waitFor()
  })
  await undone(desk.done.answered, () => rowIn(page, six).waitFor())
  await focus(page, six)
  await keys.action('answer, with who said it', async () => {
    await keys.press('a')
    await keys.type('About 8 dB.')
    await keys.press('Tab')
    await keys.type('Panel Plover')
    await keys.press('Enter')
    await zone(page, desk.record.title)
      .getByText(/said by Panel Plover/)
      .waitFor()
  })
  await keys.action('see one state', async () => {
    await keys.press('3')
    await rowIn(page, six).waitFor()
  })
  await focus(page, six)
  await keys.action('raise again', async () => {
    await keys.press('o')
    await rowIn(page, six).waitFor({ state: 'hidden' })
  })
  await undone(desk.done.raised, () => rowIn(page, six).waitFor())
  await keys.action('see the open ones', async () => {
    await keys.press('0')
    await rowIn(page, 'Camera brighter?').waitFor()
  })
  const twice = 'Is the footplate really mobile?'
  await focus(page, twice)
  await keys.action('join a suggested duplicate', async () => {
    await keys.press('y')
    await rowIn(page, twice).waitFor({ state: 'hidden' })
  })
  await panelOne.page.getByText(ownQuestions.notice.joined).waitFor()
  await undone(desk.done.folded, () => rowIn(page, twice).waitFor())
  await focus(page, 'Camera brighter?')
  await keys.action('one place up', async () => {
    await keys.press('K')
    await done(page, desk.done.ordered).waitFor()
  })
  await undone(desk.done.ordered, () => isStored(page))
  await focus(page, 'Camera brighter?')
  await keys.action('file under a theme', async () => {
    await keys.press('t')
    await keys.type('video')
    await keys.press('Enter')
    await rowIn(page, 'Camera brighter?').getByText('video', { exact: true }).waitFor()
  })
  await keys.action('look at one theme', async () => {
    await keys.press('v')
    await rowIn(page, twice).waitFor({ state: 'hidden' })
  })
  await keys.press('v')
  await focus(page, 'Camera brighter?')
  await keys.action('queue a question for the main screen', async () => {
    await keys.press('q')
    await page.getByRole('button', { name: desk.screen.bring('Camera brighter?') }).waitFor()
  })
  await undone(desk.done.queued, () =>
    page.getByRole('button', { name: desk.screen.bring('Camera brighter?') }).waitFor({ state: 'hidden' }),
  )
  await focus(page, 'Camera brighter?')
  await keys.press('q')
  await keys.action('queue something else', async () => {
    await keys.press('I')
    await keys.type('course')
    await keys.press('Enter')
    await page.getByRole('button', { name: desk.screen.bring(desk.screen.courseOfSteps) }).waitFor()
  })
  await keys.action('order the queue', async () => {
    await keys.press('u')
    await page.keyboard.press('ArrowDown')
    await keys.press('K')
    await zone(page, desk.screen.next).getByRole('listitem').first().getByText(desk.screen.courseOfSteps).waitFor()
  })
  await keys.action('bring the next', async () => {
    await keys.press('n')
    await onScreen(page, desk.screen.courseOfSteps).waitFor()
  })
  await undone(desk.done.brought, () => onScreen(page, desk.screen.nothing).waitFor())
  await keys.action('drop from the queue', async () => {
    await keys.press('u', 'x')
    await done(page, desk.done.dropped).waitFor()
  })
  await undone(desk.done.dropped, () => isStored(page))
  await keys.action('show something else', async () => {
    await keys.press('i')
    await keys.type('both')
    await keys.press('Enter')
    await onScreen(page, desk.screen.bothEars).waitFor()
  })
  await keys.action('clear the main screen', async () => {
    await keys.press('.')
    await onScreen(page, desk.screen.nothing).waitFor()
  })
  await undone(desk.done.cleared, () => onScreen(page, desk.screen.bothEars).waitFor())
  await keys.action('write a finding', async () => {
    await keys.press('l')
    await keys.type('Round window niche seen whole.')
    await keys.press('Enter')
    await line(page, 'Round window niche seen whole.').waitFor()
  })
  await undone(desk.done.written, () => zone(page, desk.record.title).getByText(desk.record.struck).waitFor())
  await keys.action('write a decision', async () => {
    await keys.press('L')
    await keys.type('Round window it is.')
    await keys.press('Enter')
    await line(second.page, 'Round window it is.').waitFor()
  })
  // Two keys at most: one that names the act, and Enter where a text is sent; the tag of a speaker is a text of its own.
  for (const { action, keys: pressed } of keys.actions)
    if (!/who said|order the queue/.test(action)) expect([action, pressed.length <= 2]).toEqual([action, true])
  if (process.env.WRITE_MODERATOR === '1') await keys.write(fileURLToPath(new URL('moderator.md', import.meta.url)))
})

it('shows a second moderator who is on a question, until that page goes away', async () => {
  await focus(mod.page, 'Camera brighter?')
  const claim = rowIn(second.page, 'Camera brighter?').getByText(desk.floor.claimed('Mod Merlin'))
  await claim.waitFor()
  await mod.page.goto('about:blank')
  await claim.waitFor({ state: 'hidden' })
  await deskOf(mod)
})

it('ends in one state when both act on a question at once, and tells the second', async () => {
  await Promise.all([focus(mod.page, 'Camera brighter?'), focus(second.page, 'Camera brighter?')])
  await Promise.all([mod.context.setOffline(true), second.context.setOffline(true)])
  await mod.page.keyboard.press('x')
  await second.page.keyboard.press('c')
  await mod.context.setOffline(false)
  await isStored(mod.page)
  await second.context.setOffline(false)
  await isStored(second.page)
  const told = second.page.getByRole('alert').getByText(/Mod Merlin acted on this question|Not taken over/)
  const toldFirst = mod.page.getByRole('alert').getByText(/Mod Magpie acted on this question/)
  await told.or(second.page.locator('body')).first().waitFor()
  await expect.poll(async () => (await told.count()) + (await toldFirst.count())).toBeGreaterThan(0)
  const stateAt = (page: Page) => page.evaluate(() => document.querySelectorAll('[data-state=called]').length)
  await expect.poll(async () => (await stateAt(mod.page)) === (await stateAt(second.page))).toBe(true)
  for (const { page } of [mod, second])
    for (const button of await page.getByRole('alert').getByRole('button', { name: desk.undo.seen }).all())
      await button.click()
})

it('keeps a name from the room and tells it to moderators', async () => {
  const text = 'May one ask about the consent?'
  const { page } = panelTwo
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByLabel(floor.ask.unnamed).check()
  await page.getByRole('button', { name: floor.ask.submit, exact: true }).click()
  await rowIn(second.page, text).getByText(board.unnamedToRoom('Panel Pipit')).waitFor()
  const seen = observer.page.getByRole('listitem').filter({ hasText: text })
  await seen.getByText(board.unnamed.name).waitFor()
  expect(await observer.page.getByText('Panel Pipit').count()).toBe(0)
  await page.getByText(ownQuestions.title(1)).click()
  await page.getByText(ownQuestions.unnamed, { exact: true }).waitFor()
  // Taken back by its asker, from every page.
  await page.getByRole('button', { name: text, exact: true }).focus()
  await page.keyboard.press('Delete')
  await page.getByRole('button', { name: ownQuestions.takeBack, exact: true }).click()
  await rowIn(second.page, text).waitFor({ state: 'hidden' })
  await seen.waitFor({ state: 'hidden' })
})

it('takes any text as what it is, says what is too long and loses nothing', async () => {
  const { page } = second
  const long = 'x'.repeat(100_000)
  await page.keyboard.press('l')
  const field = page.getByLabel(desk.record.line)
  await field.fill(long)
  await page.keyboard.press('Enter')
  await page.getByText(floor.text.tooLong(100_000, 300)).waitFor()
  expect((await field.inputValue()).length).toBe(100_000)
  for (const text of ['النافذة المستديرة مفتوحة', '👂🏽 ✓', '<script>alert(1)</script>']) {
    await field.fill(text)
    await page.keyboard.press('Enter')
    await line(page, text).waitFor()
  }
  await ask(panelOne, '<img src=x onerror=alert(1)> 👂 שלום?')
  await focus(page, '<img src=x onerror=alert(1)> 👂 שלום?')
  await page.keyboard.press('t')
  const theme = page.getByLabel(desk.floor.theme, { exact: true })
  await theme.fill(long)
  await page.keyboard.press('Enter')
  await page.getByText(desk.floor.themeLong(40)).waitFor()
  await theme.fill('<b>נושא</b> 👂')
  await page.keyboard.press('Enter')
  await rowIn(page, '<img src=x onerror=alert(1)> 👂 שלום?').getByText('<b>נושא</b> 👂', { exact: true }).waitFor()
  await page.keyboard.press('a')
  const answer = page.getByLabel(floor.form.answer)
  await answer.fill(long)
  await page.keyboard.press('Enter')
  await page.getByText(floor.text.tooLong(100_000, 4000)).waitFor()
  await page.keyboard.press('Escape')
  await page.keyboard.press('a')
  expect((await answer.inputValue()).length).toBe(100_000)
  await answer.fill('')
  await page.keyboard.press('Escape')
})

it('fits its window and has no serious accessibility fault, on laptop, projector and phone', async () => {
  for (const { page } of [mod, second]) {
    expect(await seriousFaults(page)).toEqual([])
    expect(await overflowPx(page)).toBe(0)
  }
  await mod.page.setViewportSize({ width: 360, height: 740 })
  expect(await overflowPx(mod.page)).toBe(0)
  await mod.page
    .getByRole('heading', { name: words.questionState.raised })
    .or(mod.page.getByRole('main'))
    .first()
    .waitFor()
})
