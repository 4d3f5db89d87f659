import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { raiseQuestion, toggleBacking } from '../../lib/board/edits/floor.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import { readTable } from '../../lib/board/reading.ts'
import type { DocumentKind } from '../../lib/board/records.ts'
import { kindsIn } from '../../lib/board/records.ts'
import { canonicalJson } from '../../lib/interchange/canonical-json.ts'
import {
  allSee,
  awayComplaints,
  isStored,
  Meeting,
  type Participant,
  paneOf,
  rowOf,
  showPane,
} from '../support/browser.ts'
import { LightClient } from '../support/light-client.ts'
import { messages } from '../support/messages.ts'
import type { Visitor } from '../support/start-server.ts'

/**
 * Ten minutes of a meeting at high speed: a moderator and a co-moderator, two of the team, eight of the panel (three at pages,
 * one of them on a phone; five by the protocol), twenty observers by the protocol, the main screen and the theatre view.
 */
const { board, decisions, floor, ownQuestions, votes, words } = messages
const called = 'Is the membrane seen whole?'
const doubled = 'Can you see all of the membrane?'
const late = 'And at 6 kHz?'
const ballot = 'Round window or stapes head?'
const options = ['Round window', 'Stapes head'] as const

interface Remote {
  readonly visitor: Visitor
  record: LightClient
  floor: LightClient
}

let meeting: Meeting
let caseId: string
let moderator: Participant, coModerator: Participant, surgeon: Participant, audiologist: Participant
let panel: readonly Participant[]
let hall: Participant, theatre: Participant
let speakers: readonly Remote[]
let observers: readonly Remote[]
let made = 0

beforeAll(async () => {
  meeting = await Meeting.open({ demo: true })
  caseId = 'demo-heron'
  const join = (
    role: Parameters<Meeting['joinByLink']>[1],
    name: string,
    view?: Parameters<Meeting['joinByLink']>[3],
  ) => meeting.joinByLink('Heron', role, name, view)
  moderator = await join('moderator', 'Mod Merlin')
  coModerator = await join('moderator', 'Mod Martin')
  surgeon = await join('team', 'Team Teal')
  audiologist = await join('team', 'Team Tern')
  panel = [
    await join('panel', 'Panel Plover'),
    await join('panel', 'Panel Pipit', { screen: 'laptop' }),
    await join('panel', 'Panel Puffin', { screen: 'phone' }),
  ]
  hall = await join('observer', 'Hall Heron', { screen: 'projector' })
  theatre = await join('observer', 'Theatre Thrush', { screen: 'projector', theme: 'theatre' })
  await Promise.all([hall.page.goto(`/case/${caseId}/screen`), theatre.page.goto(`/case/${caseId}/theatre`)])
  speakers = await remotes('panel', 5)
  observers = await remotes('observer', 20)
}, 600_000)
afterAll(async () => {
  for (const { record, floor: their } of [...speakers, ...observers])
    for (const client of [record, their]) client.close()
  await meeting.close()
})

const remotes = (role: 'panel' | 'observer', count: number): Promise<Remote[]> =>
  Promise.all(
    Array.from({ length: count }, async (_, index) => {
      const visitor = await meeting.server.joinBy(meeting.server.link(role), `${role} ${index}`)
      return { visitor, ...(await connected(visitor)) }
    }),
  )

async function connected({ cookie }: Visitor): Promise<Omit<Remote, 'visitor'>> {
  const open = (kind: DocumentKind) =>
    LightClient.join(`${meeting.server.syncUrl}/${documentName(kind, caseId)}?own=1`, { headers: { cookie } })
  const [record, their] = await Promise.all([open('record'), open('floor')])
  return { record, floor: their }
}

const penOf = ({ participant }: Visitor): Pen => ({
  participant: participant.id,
  now: () => new Date(),
  newId: () => `meeting-${++made}`,
})
const pages = () => [moderator, coModerator, surgeon, audiologist, ...panel]

async function ask(page: Page, text: string): Promise<void> {
  await showPane(page, 'floor')
  await page.getByLabel(floor.ask.label).fill(text)
  await page.getByLabel(floor.ask.label).press('Control+Enter')
  await rowOf(paneOf(page, 'floor'), text).waitFor()
}

async function key(page: Page, text: string, ...keys: string[]): Promise<void> {
  const row = rowOf(await showPane(page, 'floor'), text)
  await row.getByRole('button', { name: text, exact: true }).focus()
  for (const one of keys) await page.keyboard.press(one)
}

it('minute 0: everybody is on the same thing, which the moderator put on the main screen', async () => {
  const pane = await showPane(moderator.page, 'steps')
  await pane.getByRole('button', { name: 'Coupling test', exact: true }).focus()
  await moderator.page.keyboard.press('s')
  await hall.page.getByText('Remove the overhang of the round-window niche').first().waitFor()
  await allSee(pages(), (page) => page.getByText(board.onScreen.steps).first())
  await theatre.page.getByText('Remove the overhang of the round-window niche').first().waitFor()
})

it('minute 2: questions come from pages and from far away, and are counted alike everywhere', async () => {
  const [first, second, third] = panel as [Participant, Participant, Participant]
  const before = readTable((speakers[0] as Remote).floor.doc, 'questions').length
  await Promise.all([
    ask(first.page, called),
    ask(second.page, doubled),
    ask(third.page, late),
    ...speakers.map(({ visitor, floor: their }, index) =>
      their.attempt((doc) => void raiseQuestion(doc, penOf(visitor), { text: `From far away, number ${index + 1}?` })),
    ),
  ])
  for (const { floor: their } of [...speakers, ...observers])
    await their.until(() => readTable(their.doc, 'questions').length === before + 8)
  const asked = readTable((speakers[0] as Remote).floor.doc, 'questions').find(({ text }) => text === called)
  for (const { visitor, floor: their } of speakers)
    expect(await their.attempt((doc) => toggleBacking(doc, penOf(visitor), asked?.id ?? ''))).toBe('stored')
  await Promise.all(pages().map(({ page }) => showPane(page, 'floor')))
  await allSee(pages(), (page) => rowOf(paneOf(page, 'floor'), called).getByText(floor.thread.backers(5)))
})

it('minute 4: one moderator folds a double while the other calls the question, for hall, theatre and its asker', async () => {
  await Promise.all([
    (async () => {
      await key(coModerator.page, doubled, 'f')
      await coModerator.page.getByRole('combobox', { name: floor.form.foldInto }).fill('membrane seen whole')
      await coModerator.page.keyboard.press('Enter')
    })(),
    key(moderator.page, called, 'c', 's'),
  ])
  await hall.page.getByText(called).first().waitFor()
  await theatre.page.getByText(called).first().waitFor()
  await (panel[0] as Participant).page.getByText(ownQuestions.notice.called).waitFor()
  await allSee(pages(), (page) => rowOf(paneOf(page, 'floor'), called).getByText(floor.thread.folded(1)))
})

it('minute 6: the answer, a finding and a vote of the panel stand in the record of everybody', async () => {
  await key(moderator.page, called, 'a')
  await moderator.page.keyboard.type('Whole, with a false membrane over its lower third.')
  await moderator.page.keyboard.press('Control+Enter')
  const notes = await showPane(surgeon.page, 'decisions')
  await notes.getByRole('button', { name: decisions.note.add(decisions.kind.finding) }).click()
  await surgeon.page.getByRole('textbox', { name: decisions.editor.label(decisions.kind.finding) }).focus()
  await surgeon.page.keyboard.type('False membrane over the lower third.')
  await surgeon.page.keyboard.press('Escape')
  const pane = await showPane(moderator.page, 'decisions')
  await pane.getByRole('button', { name: votes.open }).click()
  await moderator.page.keyboard.type(ballot)
  for (const [place, option] of options.entries()) await moderator.page.getByLabel(votes.option(place + 1)).fill(option)
  await moderator.page.getByRole('button', { name: votes.start }).click()
  for (const [index, { page }] of panel.entries()) {
    const bar = page.getByRole('region', { name: votes.barTitle(ballot) })
    await bar.getByRole('button', { name: options[index % 2] as string }).click()
    await bar.getByRole('button', { name: votes.sure(80), exact: true }).click()
  }
  const bar = moderator.page.getByRole('region', { name: votes.barTitle(ballot) })
  await bar.getByText(votes.turnout(3)).waitFor()
  await bar.getByRole('button', { name: votes.close }).click()
  for (const { record } of observers)
    await record.until(() => readTable(record.doc, 'votes').some(({ result }) => result !== undefined))
  await Promise.all([coModerator, audiologist].map(({ page }) => showPane(page, 'decisions')))
  await allSee([coModerator, audiologist], (page) => page.getByText('False membrane over the lower third.').first())
  await theatre.page.getByText(ballot).first().waitFor()
})

it('minute 8: the server dies in the middle of it; everybody is told, comes back, and nothing is lost', async () => {
  meeting.allow(awayComplaints)
  await meeting.server.kill9()
  await hall.page.getByText(/Link lost since/).waitFor()
  await ask((panel[1] as Participant).page, 'Written while the server was dead?')
  await meeting.server.start()
  for (const { page } of pages()) await isStored(page)
  await hall.page.getByText(/Link lost since/).waitFor({ state: 'detached' })
  for (const group of [speakers, observers])
    for (const remote of group) {
      remote.record.close()
      remote.floor.close()
      Object.assign(remote, await connected(remote.visitor))
    }
  await Promise.all(pages().map(({ page }) => showPane(page, 'floor')))
  await allSee(pages(), (page) => rowOf(paneOf(page, 'floor'), 'Written while the server was dead?'))
})

it('minute 10: what waits is deferred, the screen is cleared, and the documents of everybody are equal', async () => {
  await key(coModerator.page, late, 'd')
  await coModerator.page.getByLabel(floor.form.deferTo).fill('First fitting')
  await coModerator.page.keyboard.press('Enter')
  await allSee(pages(), (page) => paneOf(page, 'floor').getByRole('button', { name: words.questionState.deferred }))
  for (const { page } of pages()) await isStored(page)
  for (const kind of ['record', 'floor'] as const) {
    const [reference, ...others] = [...speakers, ...observers].map((remote) => remote[kind])
    if (reference === undefined) throw new Error('nobody is listening')
    await reference.ask()
    const wanted = contentOf(reference.doc, kind)
    for (const client of others) {
      await client.ask()
      expect(contentOf(client.doc, kind)).toEqual(wanted)
    }
    for (const { name, page } of pages())
      await expect
        .poll(async () => contentOf(await copyOf(page, kind), kind), { message: name, timeout: 20_000 })
        .toEqual(wanted)
  }
})

/** Every record of a document as its readers see it, in one order. */
const contentOf = (doc: Y.Doc, kind: DocumentKind): readonly string[] =>
  kindsIn(kind).flatMap((name) =>
    readTable(doc, name)
      .map((record) => `${name} ${canonicalJson(record as never)}`)
      .sort(),
  )

/** The document as this page holds it: from the copy that its browser keeps. */
async function copyOf(page: Page, kind: DocumentKind): Promise<Y.Doc> {
  const updates = await page.evaluate(
    async (wanted) => {
      const name = (await indexedDB.databases()).find((each) => each.name?.includes(wanted))?.name ?? ''
      const database = await new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexedDB.open(name)
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error)
      })
      const rows = await new Promise<Uint8Array[]>((resolve, reject) => {
        const request = database.transaction('updates').objectStore('updates').getAll()
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error)
      })
      database.close()
      return rows.map((row) => Array.from(row))
    },
    documentName(kind, caseId),
  )
  const doc = new Y.Doc()
  for (const update of updates) Y.applyUpdate(doc, Uint8Array.from(update))
  return doc
}
