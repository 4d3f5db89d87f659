import AxeBuilder from '@axe-core/playwright'
import { type Browser, type BrowserContext, chromium, type Locator, type Page } from 'playwright-core'
import { expect } from 'vitest'
import { type Theme, themeCookie } from '../../app/theme/theme.ts'
import type { Role } from '../../lib/board/roles.ts'
import { ensureChromium } from '../../scripts/steps/chromium.mjs'
import { messages } from './messages.ts'
import { type StartOptions, startServer, type TestServer } from './start-server.ts'

const flags = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

export const screens = {
  desk: { width: 1600, height: 1000 },
  laptop: { width: 1200, height: 800 },
  phone: { width: 360, height: 740 },
  projector: { width: 1920, height: 1080 },
} as const

/** How long a page may take for anything: the machine may be busy with other tests. */
const patienceMs = 30_000

/** What a browser says of a link or server that is away; how a request ended depends on how far it had come. */
export const awayComplaints =
  /WebSocket|net::ERR_(INTERNET_DISCONNECTED|NETWORK|CONNECTION|ABORTED|FAILED|EMPTY_RESPONSE|INCOMPLETE)/

export interface View {
  readonly screen?: keyof typeof screens
  readonly theme?: Theme
}

/** One person at one page of their own browser profile. */
export interface Participant {
  readonly name: string
  readonly context: BrowserContext
  readonly page: Page
}

export type Five = Readonly<Record<'moderator' | 'team' | 'panelOne' | 'panelTwo' | 'observer', Participant>> & {
  readonly everybody: readonly Participant[]
}

/** A server with a browser in front of it, and everything that a page complained about. */
export class Meeting {
  readonly server: TestServer
  readonly complaints: string[] = []
  private readonly browser: Browser
  private readonly allowed: RegExp[] = []

  private constructor(server: TestServer, browser: Browser) {
    this.server = server
    this.browser = browser
  }

  static async open(options?: StartOptions): Promise<Meeting> {
    const [server, executablePath] = await Promise.all([startServer(options), ensureChromium()])
    return new Meeting(server, await chromium.launch({ executablePath, args: flags }))
  }

  /** Ends everything. @throws when a page complained, or the server carries Yjs twice */
  async close(): Promise<void> {
    await this.browser.close()
    await this.server.stop()
    expect(this.complaints).toEqual([])
    expect(this.server.errors).not.toContain('Yjs was already imported')
  }

  /** Complaints of a browser that belong to what is being tried: an answer of 410, a network that is away. */
  allow(complaint: RegExp): void {
    this.allowed.push(complaint)
  }

  /** A page in a profile of its own, signed in as nobody. */
  async visitor(name: string, { screen = 'desk', theme = 'clinic' }: View = {}): Promise<Participant> {
    const context = await this.browser.newContext({ viewport: screens[screen], baseURL: this.server.url })
    context.setDefaultTimeout(patienceMs)
    await context.addCookies([{ name: themeCookie, value: theme, url: this.server.url }])
    context.on('console', (message) => {
      if (message.type() === 'error') this.complain(name, `${message.text()} (${message.location().url})`)
    })
    context.on('weberror', (error) => this.complain(name, String(error.error())))
    return { name, context, page: await context.newPage() }
  }

  /** Joins through the page behind a link, as somebody who was sent it does. */
  async joinBy(link: string, role: Role, name: string, view?: View): Promise<Participant> {
    const person = await this.visitor(name, view)
    await person.page.goto(link)
    await fillJoinForm(person.page, role, name)
    await person.page.waitForURL(/\/(case|programme)\/|\/$/)
    return person
  }

  /** Joins a case by a link made for it, and has the board open. */
  async joinCase(caseId: string, role: Role, name: string, view?: View): Promise<Participant> {
    const scope = { kind: 'case', id: caseId } as const
    const person = await this.joinBy(await this.server.invite({ role, label: name, scope }), role, name, view)
    await isOpen(person.page)
    return person
  }

  /** Joins the demo programme by the link printed for a role, and opens one of its cases from there. */
  async joinByLink(caseName: string, role: Role, name: string, view?: View): Promise<Participant> {
    const person = await this.joinBy(this.server.link(role), role, name, view)
    await person.page.getByRole('link', { name: caseName, exact: true }).click()
    await isOpen(person.page)
    return person
  }

  joinFiveByLinks(caseName: string): Promise<Five> {
    return five((role, name, view) => this.joinByLink(caseName, role, name, view))
  }

  /** The five of the design, each with their own browser; one of the panel follows on a phone. */
  joinFive(caseId: string): Promise<Five> {
    return five((role, name, view) => this.joinCase(caseId, role, name, view))
  }

  private complain(name: string, text: string): void {
    if (!this.allowed.some((pattern) => pattern.test(text))) this.complaints.push(`${name}: ${text}`)
  }
}

async function five(join: (role: Role, name: string, view?: View) => Promise<Participant>): Promise<Five> {
  const [moderator, team, panelOne, panelTwo, observer] = await Promise.all([
    join('moderator', 'Mod Merlin'),
    join('team', 'Team Teal'),
    join('panel', 'Panel Plover'),
    join('panel', 'Panel Pipit', { screen: 'phone' }),
    join('observer', 'Obs Osprey'),
  ])
  const everybody = [moderator, team, panelOne, panelTwo, observer]
  return { moderator, team, panelOne, panelTwo, observer, everybody }
}

export async function fillJoinForm(page: Page, role: Role, name: string): Promise<void> {
  const { join, words } = messages
  await page.getByLabel(join.name).fill(name)
  await page.getByLabel(join.affiliation).fill('Test clinic')
  await page.getByLabel(join.agree).check()
  await page.getByRole('button', { name: join.joinAs(words.role[role]) }).click()
}

/** The board is open and in step with the server. */
export async function isOpen(page: Page): Promise<void> {
  await page.getByRole('navigation', { name: messages.board.panes }).waitFor()
  await isStored(page)
}

/** The page says that the server has stored everything that was written here. */
export const isStored = (page: Page): Promise<void> =>
  page
    .getByRole('banner')
    .getByText(new RegExp(`${messages.board.storedState.stored}$`))
    .waitFor()

const paneTitles = {
  hearing: messages.hearing.title,
  plan: messages.plan.paneTitle,
  steps: messages.steps.paneTitle,
  decisions: messages.decisions.title,
  floor: messages.floor.title,
}
export type PaneName = keyof typeof paneTitles

export const paneOf = (page: Page, pane: PaneName): Locator =>
  page.getByRole('region', { name: paneTitles[pane], exact: true })

/** Brings a pane into view by its name in the switch between panes, where it does not stand by itself. */
export async function showPane(page: Page, pane: PaneName): Promise<Locator> {
  const region = paneOf(page, pane)
  const panes = page.getByRole('navigation', { name: messages.board.panes })
  await panes.waitFor()
  const choice = panes.getByRole('button', { name: messages.board.paneShort[pane] })
  // A pane with a column of its own has no button, and may still be loading.
  await region.or(choice).first().waitFor()
  if (!(await region.isVisible())) await choice.click()
  await region.waitFor()
  return region
}

/** The row of a list that a button with this name belongs to. */
export const rowOf = (region: Locator, name: string | RegExp): Locator =>
  region.getByRole('listitem').filter({ has: region.page().getByRole('button', { name, exact: true }) })

/** Everybody sees it, each on their own page. */
export const allSee = (people: readonly Participant[], what: (page: Page) => Locator) =>
  Promise.all(people.map(({ page }) => what(page).waitFor()))

/** What an accessibility check finds that is serious or critical, one line each. */
export async function seriousFaults(page: Page): Promise<string[]> {
  // The legacy mode leaves out a second page that only frames need; there is none.
  const { violations } = await new AxeBuilder({ page }).setLegacyMode().analyze()
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => `${id} ${target}: ${failureSummary}`))
}

/** How many pixels the page is wider than its window. */
export const overflowPx = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
