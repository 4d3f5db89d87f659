import type { CDPSession, Page } from 'playwright-core'
import { Meeting, paneOf, showPane } from '../support/browser.ts'
import { createLongCase } from '../support/long-case.ts'
import { messages } from '../support/messages.ts'

/**
 * From the key that takes a threshold to the frame that shows everything that follows from it, on a board with twelve
 * tests in a real browser. A frame of 60 Hz lasts 16.7 ms. Run: npx tsx tests/bench/one-frame.ts
 */
const rounds = 20
const frameMs = 1000 / 60
const { hearing } = messages

interface Timed {
  /** from the key to after the first frame that was drawn since */
  readonly paintedMs: number
  /** whether the average had its new value in that frame */
  readonly shown: boolean
  readonly scriptMs: number
  readonly styleAndLayoutMs: number
  /** everything that the page did until the frame was drawn, also collecting garbage */
  readonly taskMs: number
}

const meeting = await Meeting.open()
try {
  const { page } = await meeting.joinCase(await createLongCase(meeting.server, 'Case Bench'), 'team', 'Team Teal')
  await showPane(page, 'hearing')
  const session = await page.context().newCDPSession(page)
  await session.send('Performance.enable', { timeDomain: 'threadTicks' }) // processor time: the machine may be busy with other work
  await watchFrames(page)
  const cold = await timed(page, session, 40)
  const times: Timed[] = []
  for (let round = 0; round < rounds; round++) times.push(await timed(page, session, round % 2 === 0 ? 45 : 40))
  report(cold, times)
} finally {
  await meeting.close()
}

/** Notes for each Enter when the next frame was drawn, and what the first average read in it. */
async function watchFrames(page: Page): Promise<void> {
  await page.evaluate(() => {
    addEventListener(
      'keydown',
      ({ key, timeStamp }) => {
        if (key !== 'Enter') return
        requestAnimationFrame(() => {
          const average = document.querySelector('[data-measure="air-who"] [data-ear="right"]')?.textContent ?? ''
          const drawn = new MessageChannel()
          drawn.port1.onmessage = () => {
            const { body } = document
            body.dataset.painted = JSON.stringify({ ms: performance.now() - timeStamp, average })
          }
          drawn.port2.postMessage(0)
        })
      },
      { capture: true },
    )
  })
}

async function timed(page: Page, session: CDPSession, level: number): Promise<Timed> {
  const row = `${hearing.grid.row.air} ${hearing.grid.unmasked}`
  const cell = paneOf(page, 'hearing')
    .getByRole('grid')
    .getByRole('textbox', { name: hearing.grid.cell(row, 1000) })
  const average = page.locator('[data-measure="air-who"] [data-ear="right"]').first()
  await cell.fill(String(level))
  const averageBefore = await average.textContent()
  await page.evaluate(() => delete document.body.dataset.painted)
  const before = await metrics(session)
  await page.keyboard.press('Enter') // a press through the locator would search the page, and that would count too
  const painted = await page.waitForFunction(() => document.body.dataset.painted, undefined, { polling: 50 })
  const after = await metrics(session)
  const { ms, average: inFrame } = JSON.parse(String(await painted.jsonValue())) as { ms: number; average: string }
  const spent = (name: string) => 1000 * ((after.get(name) ?? 0) - (before.get(name) ?? 0))
  return {
    paintedMs: ms,
    shown: inFrame !== averageBefore,
    scriptMs: spent('ScriptDuration'),
    styleAndLayoutMs: spent('RecalcStyleDuration') + spent('LayoutDuration'),
    taskMs: spent('TaskDuration'),
  }
}

async function metrics(session: CDPSession): Promise<ReadonlyMap<string, number>> {
  const { metrics: found } = await session.send('Performance.getMetrics')
  return new Map(found.map(({ name, value }) => [name, value]))
}

function report(cold: Timed, times: readonly Timed[]): void {
  const quantile = (of: Exclude<keyof Timed, 'shown'>, share: number): number =>
    times.map((time) => time[of]).toSorted((a, b) => a - b)[
      Math.min(times.length - 1, Math.floor(share * times.length))
    ] ?? Number.NaN
  const line = (of: Exclude<keyof Timed, 'shown'>) =>
    `first ${cold[of].toFixed(1)}, median ${quantile(of, 0.5).toFixed(1)}, 95 % below ${quantile(of, 0.95).toFixed(1)} ms`
  console.log(`key to painted:   ${line('paintedMs')} (a frame lasts ${frameMs.toFixed(1)} ms)`)
  console.log(`script:           ${line('scriptMs')}`)
  console.log(`style and layout: ${line('styleAndLayoutMs')}`)
  console.log(`all of the page:  ${line('taskMs')}`)
  console.log(`in the first frame: ${[cold, ...times].filter(({ shown }) => shown).length} of ${times.length + 1}`)
}
