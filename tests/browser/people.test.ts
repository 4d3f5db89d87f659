import { afterAll, beforeAll, expect, it } from 'vitest'
import { fillJoinForm, isOpen, Meeting, type Participant } from '../support/browser.ts'
import { messages } from '../support/messages.ts'

const { board, invitations, join, overview, shell, words } = messages
let meeting: Meeting
let owner: Participant

beforeAll(async () => {
  meeting = await Meeting.open()
  owner = await meeting.joinBy(meeting.server.ownerLink, 'moderator', 'Owner Olm')
}, 600_000)
afterAll(() => meeting.close())

/** Makes a link from the programme's page and reads it where it is shown this once. */
async function inviteFromPage(role: keyof typeof words.role, label: string): Promise<string> {
  const { page } = owner
  await page.getByRole('button', { name: invitations.invite }).click()
  const dialog = page.getByRole('dialog', { name: invitations.invite })
  await dialog.getByLabel(invitations.role, { exact: true }).selectOption({ label: words.role[role] })
  await dialog.getByLabel(invitations.forWhom).fill(label)
  await dialog.getByRole('button', { name: invitations.make }).click()
  const link = await dialog.getByLabel(invitations.link).inputValue()
  await dialog.getByRole('button', { name: invitations.done }).click()
  return link
}

it('lets the owner make a programme, a case and a link by hand, and a guest come in by it', async () => {
  const { page } = owner
  await page.getByRole('button', { name: overview.newProgramme }).click()
  await page.getByLabel(overview.programmeLabel).fill('Spring meeting')
  await page.getByRole('button', { name: overview.create }).click()
  await page.getByRole('link', { name: 'Spring meeting' }).click()
  await page.waitForURL(/\/programme\//)
  await page.getByRole('button', { name: overview.newCase }).click()
  await page.getByLabel(overview.caseLabel).fill('Case Heron')
  await page.getByRole('button', { name: overview.create }).click()
  await page.getByRole('link', { name: 'Case Heron' }).waitFor()

  const guest = await meeting.joinBy(await inviteFromPage('panel', 'Panel of the morning'), 'panel', 'Guest Gull')
  await guest.page.getByRole('link', { name: 'Case Heron' }).click()
  await isOpen(guest.page)
  await guest.page.getByRole('heading', { name: 'Case Heron', level: 1 }).waitFor()
})

it('asks for name, affiliation and agreement before anybody is let in', async () => {
  const { page } = await meeting.visitor('Hasty')
  await page.goto(await inviteFromPage('observer', 'Hall'))
  await page.getByRole('button', { name: join.joinAs(words.role.observer) }).click()
  await page.getByText(join.nameMissing).waitFor()
  await page.getByText(join.affiliationMissing).waitFor()
  await page.getByText(join.agreeMissing).waitFor()
  expect(new URL(page.url()).pathname).toMatch(/^\/join\//)
})

it('closes the page of somebody whose link is revoked, says why, and lets nobody in by it any more', async () => {
  meeting.allow(/WebSocket|status of (401|403|404|410)/)
  const link = await inviteFromPage('team', 'Theatre two')
  const guest = await meeting.joinBy(link, 'team', 'Guest Grebe')
  await guest.page.getByRole('link', { name: 'Case Heron' }).click()
  await isOpen(guest.page)

  await owner.page.getByRole('button', { name: invitations.revokeOf('Theatre two') }).click()
  await owner.page.getByRole('button', { name: invitations.revokeYes }).click()
  await guest.page.getByRole('alert').filter({ hasText: board.revoked }).waitFor()

  const late = await meeting.visitor('Late')
  await late.page.goto(link)
  await late.page.getByRole('heading', { name: join.revoked }).waitFor()
  await late.page.getByText(join.revokedHint).waitFor()
})

it('has a sign for a browser that asks by the name of old, because the head of the page has not come yet', async () => {
  const sign = await owner.page.request.get('/favicon.ico')
  expect([sign.status(), sign.headers()['content-type']]).toEqual([200, 'image/svg+xml'])
})

it('says of an expired, a mistyped and a foreign link what is the matter', async () => {
  const { server } = meeting
  const [own, other] = [await server.createCase('Own'), await server.createCase('Other')]
  const expired = await server.invite({
    role: 'panel',
    label: 'Yesterday',
    scope: { kind: 'case', id: own },
    expiresAt: new Date(Date.now() - 60_000).toISOString(),
  })
  const guest = await meeting.joinCase(own, 'panel', 'Guest Goosander')
  await guest.page.goto(expired)
  await guest.page.getByRole('heading', { name: join.expired }).waitFor()
  await guest.page.goto('/join/not-a-token-of-this-server')
  await guest.page.getByRole('heading', { name: join.unknown }).waitFor()
  await guest.page.goto(`/case/${other}`)
  await guest.page.getByRole('heading', { name: board.cannotOpen }).waitFor()
  await guest.page.getByRole('main').getByRole('alert').waitFor()
})

it('offers somebody who is known already to go on, or to be somebody else', async () => {
  const caseId = await meeting.server.createCase('Twice')
  const scope = { kind: 'case', id: caseId } as const
  const guest = await meeting.joinCase(caseId, 'observer', 'Guest Godwit')
  await guest.page.goto(await meeting.server.invite({ role: 'panel', label: 'Second', scope }))
  await guest.page.getByRole('button', { name: join.continueAs('Guest Godwit') }).click()
  await isOpen(guest.page)
  await guest.page.getByLabel(messages.floor.ask.label).waitFor()

  await guest.page.goto(await meeting.server.invite({ role: 'observer', label: 'Third', scope }))
  await guest.page.getByRole('button', { name: join.somebodyElse }).click()
  await guest.page.getByRole('button', { name: join.signOut }).click()
  await fillJoinForm(guest.page, 'observer', 'Guest Garganey')
  await isOpen(guest.page)
  expect(await guest.page.getByLabel(messages.floor.ask.label).count()).toBe(0)
})

it('lists who is here by role, and observers as a number', async () => {
  const caseId = await meeting.server.createCase('Full house')
  const moderator = await meeting.joinCase(caseId, 'moderator', 'Mod Merlin')
  await meeting.joinCase(caseId, 'panel', 'Panel Plover')
  await Promise.all(['Obs One', 'Obs Two'].map((name) => meeting.joinCase(caseId, 'observer', name)))
  const { page } = moderator
  await page.getByRole('button', { name: board.openPeople(2, 2) }).click()
  const dialog = page.getByRole('dialog', { name: board.whoIsHere })
  await dialog.getByText('Panel Plover').waitFor()
  await dialog.getByText(board.observers(2)).waitFor()
  expect(await dialog.getByText('Obs One').count()).toBe(0)
  await dialog.getByRole('button', { name: shell.close }).click()
})
