import type { CDPSession, Page } from 'playwright-core'
import { firstViewMark } from '../../app/board/frame/first-view.ts'
import { documentName } from '../../lib/board/documents.ts'
import { showOnMainScreen } from '../../lib/board/edits/decisions.ts'
import { callQuestion, moveQuestion, raiseQuestion, reply, rewordQuestion } from '../../lib/board/edits/floor.ts'
import { annotate, removeAnnotation } from '../../lib/board/edits/hearing.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import type { RecordId } from '../../lib/board/identity.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { Meeting, type Participant } from '../support/browser.ts'
import { messages } from '../support/messages.ts'
import { StubbornClient } from '../support/stubborn-client.ts'
import { quiet } from './crowd.ts'
import { writeResults } from './results.ts'

/**
 * What the board of a panel member asks of a weak device: until it can be used on a slow phone, what a page does that nobody
 * touches, and whether three hours of a meeting leave anything behind. Run: npx tsx tests/bench/light.ts
 */

/** A slow phone in a hall: common practice in measuring pages, no source. */
const slowProcessor = 4
const slowNetwork = {
  offline: false,
  latency: 150,
  downloadThroughput: 1_600_000 / 8,
  uploadThroughput: 750_000 / 8,
}
const idleSeconds = 60
/** Three hours with something happening every two seconds, as fast as one connection may write. */
const acts = 5400
const actEveryMs = 25
const caseId = 'demo-heron'

const rows: (readonly [string, string])[] = []
const seconds = (ms: number) => `${(ms / 1000).toFixed(2)} s`
const mebibytes = (bytes: number) => `${(bytes / 2 ** 20).toFixed(1)} MiB`

/** A moderator without a page: the main screen changes, pins come and go, questions are called and put back. */
class MeetingWriter {
  private readonly record = new StubbornClient()
  private readonly floor = new StubbornClient()
  private readonly pen: Pen
  private made = 0
  private question: RecordId = ''
  private pin: RecordId = ''

  static async join({ server }: Meeting, { context, page }: Participant): Promise<MeetingWriter> {
    const cookie = (await context.cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
    const { body } = await server.get('/api/me', cookie)
    await page.close()
    const writer = new MeetingWriter((body as { participant: { id: string } }).participant.id)
    const headers = { cookie, origin: server.url }
    await writer.record.connect(`${server.syncUrl}/${documentName('record', caseId)}?own=1`, headers)
    await writer.floor.connect(`${server.syncUrl}/${documentName('floor', caseId)}?own=1`, headers)
    return writer
  }

  private constructor(participant: string) {
    this.pen = { participant, now: () => new Date(), newId: () => `light-${++this.made}` }
  }

  act(turn: number): void {
    const { record, floor, pen } = this
    const name = String(turn)
    switch (turn % 6) {
      case 0:
        return record.edit(name, (doc) =>
          showOnMainScreen(doc, pen, turn % 12 === 0 ? { kind: 'forecast' } : { kind: 'audiogram', ear: 'right' }),
        )
      case 1:
        return record.edit(name, (doc) => {
          this.pin = annotate(doc, pen, {
            place: { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40 + (turn % 40)) },
            text: `Seen at ${turn}`,
          })
        })
      case 2:
        return floor.edit(name, (doc) => {
          if (turn % 300 === 2 || this.question === '')
            this.question = raiseQuestion(doc, pen, { text: `Asked at ${turn}?` })
          else rewordQuestion(doc, this.question, { text: `Asked at ${turn}?` })
        })
      case 3:
        return floor.edit(name, (doc) => callQuestion(doc, pen, this.question))
      case 4:
        return record.edit(name, (doc) => removeAnnotation(doc, this.pin))
      default:
        return floor.edit(name, (doc) => {
          moveQuestion(doc, pen, this.question, 'raised')
          if (turn % 60 === 5) reply(doc, pen, this.question, `Said at ${turn}.`)
        })
    }
  }

  async settled(): Promise<void> {
    await Promise.all([this.record.settled(), this.floor.settled()])
    const refused = [...this.record.refused, ...this.floor.refused]
    if (refused.length > 0) throw new Error(`the meeting was refused: ${refused[0]}`)
  }

  async close(): Promise<void> {
    await this.settled()
    this.record.close()
    this.floor.close()
  }
}

const meeting = await Meeting.open({ demo: true })
try {
  const opening = await openingOnPhone()
  const idleShare = await idle()
  const growth = await longMeeting()
  const table = ['| what | measured |', '| --- | --- |', ...rows.map(([what, value]) => `| ${what} | ${value} |`)]
  await writeResults('light', 'A weak device', table.join('\n'), [
    { what: 'usable on a slow phone the first time, s', value: opening.firstMs / 1000, most: 5 },
    { what: 'usable on a slow phone again, s', value: opening.againMs / 1000, most: 2 },
    { what: 'processor of a page that nobody touches, %', value: idleShare * 100, most: 1 },
    // Chosen by us: what is written stays in the document, so some growth is no leak.
    { what: 'heap after the second half of three hours, against the first', value: growth, most: 1.1 },
  ])
} finally {
  await meeting.close()
}

function note(what: string, value: string): void {
  rows.push([what, value])
  console.log(`${what}: ${value}`)
}

/** A fresh profile that has only joined: nothing of the board is in its cache. */
async function openingOnPhone(): Promise<{ readonly firstMs: number; readonly againMs: number }> {
  const { context, page } = await meeting.joinBy(meeting.server.link('panel'), 'panel', 'Slow phone', {
    screen: 'phone',
  })
  await page.close()
  const phone = await context.newPage()
  const session = await context.newCDPSession(phone)
  await session.send('Network.enable')
  await session.send('Network.emulateNetworkConditions', slowNetwork)
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowProcessor })
  await session.send('Network.clearBrowserCache')
  const firstMs = await usableAfter(phone)
  note('usable on a slow phone, first time', seconds(firstMs))
  await phone.goto('about:blank')
  const againMs = await usableAfter(phone)
  note('usable on a slow phone, again', seconds(againMs))
  await context.close()
  return { firstMs, againMs }
}

/**
 * Until chart and questions stand and are in step, and the box for a question takes what is typed. The page itself looks
 * whether it does: what the driver of the browser does for a click takes a slow phone's time too.
 */
async function usableAfter(page: Page): Promise<number> {
  await page.goto(`/case/${caseId}`, { waitUntil: 'commit' })
  await page.waitForFunction((mark) => performance.getEntriesByName(mark).length > 0, firstViewMark, { polling: 100 })
  return page.evaluate(
    async ({ mark, pane, label, text }) => {
      const standsMs = performance.getEntriesByName(mark)[0]?.startTime ?? Number.NaN
      const begunMs = performance.now()
      const button = [...document.querySelectorAll('nav button')].find(({ textContent }) => textContent?.includes(pane))
      if (!(button instanceof HTMLElement)) throw new Error(`there is no button ${pane}`)
      button.click()
      let box: HTMLElement | null | undefined
      while (!(box instanceof HTMLTextAreaElement)) {
        await new Promise((resolve) => requestAnimationFrame(resolve))
        box = [...document.querySelectorAll('label')].find(({ textContent }) => textContent?.startsWith(label))?.control
      }
      box.focus()
      document.execCommand('insertText', false, text)
      for (let frames = 0; frames < 2; frames++) await new Promise((resolve) => requestAnimationFrame(resolve))
      if (box.value !== text) throw new Error('the box did not take what was typed')
      const typedMs = performance.now() - begunMs
      document.execCommand('selectAll')
      document.execCommand('delete')
      return standsMs + typedMs
    },
    {
      mark: firstViewMark,
      pane: messages.board.paneShort.floor,
      label: messages.floor.ask.label,
      text: 'Is it mobile?',
    },
  )
}

async function idle(): Promise<number> {
  const { page, context } = await meeting.joinByLink('Heron', 'panel', 'Idle page', { screen: 'laptop' })
  await page.locator('[data-works-offline=true]').waitFor({ state: 'attached' })
  const session = await context.newCDPSession(page)
  await session.send('Performance.enable', { timeDomain: 'threadTicks' }) // processor time: the machine may be busy
  await quiet(5000)
  const before = await taskSeconds(session)
  await quiet(idleSeconds * 1000)
  const share = ((await taskSeconds(session)) - before) / idleSeconds
  note('processor of a page that nobody touches', `${(share * 100).toFixed(2)} %`)
  await context.close()
  return share
}

async function taskSeconds(session: CDPSession): Promise<number> {
  const { metrics } = await session.send('Performance.getMetrics')
  return metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN
}

/** @returns heap at the end against that at half time, both after collecting garbage */
async function longMeeting(): Promise<number> {
  const reader = await meeting.joinByLink('Heron', 'panel', 'Long reader', { screen: 'laptop' })
  const session = await reader.context.newCDPSession(reader.page)
  const writer = await MeetingWriter.join(meeting, await meeting.joinByLink('Heron', 'moderator', 'Mod Merlin'))
  const heaps: number[] = []
  for (let act = 1; act <= acts; act++) {
    writer.act(act)
    await quiet(actEveryMs)
    if (act % (acts / 4) === 0) {
      await writer.settled()
      heaps.push(await heapOf(session))
      note(`heap after ${act} acts`, mebibytes(heaps.at(-1) ?? Number.NaN))
    }
  }
  await writer.close()
  await reader.context.close()
  return (heaps[3] ?? Number.NaN) / (heaps[1] ?? Number.NaN)
}

async function heapOf(session: CDPSession): Promise<number> {
  await session.send('HeapProfiler.enable')
  await session.send('HeapProfiler.collectGarbage')
  await session.send('HeapProfiler.collectGarbage')
  const { usedSize } = await session.send('Runtime.getHeapUsage')
  return usedSize
}
