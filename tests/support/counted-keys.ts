import { writeFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'

interface Counted {
  readonly action: string
  /** as pressed, without what was typed */
  readonly keys: readonly string[]
  /** characters of text that the action needs besides */
  readonly typed: number
  readonly seconds: number
}

/** Presses keys for a moderator and counts them, action by action, until what they do is seen. */
export class CountedKeys {
  readonly actions: Counted[] = []
  private readonly page: Page
  private keys: string[] = []
  private typed = 0

  constructor(page: Page) {
    this.page = page
  }

  async press(...keys: string[]): Promise<void> {
    for (const key of keys) {
      this.keys.push(key)
      await this.page.keyboard.press(key)
    }
  }

  async type(text: string): Promise<void> {
    this.typed += text.length
    await this.page.keyboard.type(text)
  }

  /** One action of the moderator's: what is pressed, and what is then to be seen. */
  async action(action: string, work: () => Promise<void>): Promise<void> {
    this.keys = []
    this.typed = 0
    const before = performance.now()
    await work()
    this.actions.push({
      action,
      keys: [...this.keys],
      typed: this.typed,
      seconds: (performance.now() - before) / 1000,
    })
  }

  /** The table for tests/browser/moderator.md. */
  async write(file: string): Promise<void> {
    const rows = this.actions.map(
      ({ action, keys, typed, seconds }) =>
        `| ${action} | ${keys.map((key) => `\`${key}\``).join(' ')} | ${keys.length} | ${typed} | ${seconds.toFixed(1)} |`,
    )
    const head = [
      '# Keys and seconds of each action at the moderator’s desk',
      '',
      'Written by `WRITE_MODERATOR=1 npx vitest run tests/browser/desk.test.ts`; an ordinary run leaves it as it is. Keys are those',
      'of the action once a question has the focus (`j`, `k` move it); Enter sends a text. Seconds run from the first key until the',
      'result is seen on the pages that it is for, in browsers that share one machine with the server and with other tests.',
      '',
      '| action | keys | count | characters typed | seconds |',
      '| --- | --- | ---: | ---: | ---: |',
    ]
    await writeFile(file, `${[...head, ...rows].join('\n')}\n`)
  }
}
