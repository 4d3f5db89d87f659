import type { Locator, Page } from 'playwright-core'

/** More stops than any page has. */
const mostStops = 250

/** Goes through the page with Tab, or backwards, until a part of it has the focus. @returns how many times the key was pressed */
export async function reach(page: Page, target: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<number> {
  await target.waitFor()
  for (let pressed = 0; pressed < mostStops; pressed++) {
    if (await target.evaluate((element) => element === document.activeElement)) return pressed
    await page.keyboard.press(key)
  }
  throw new Error(`${mostStops} times ${key} did not reach ${target}`)
}
