import { mkdirSync, writeFileSync } from 'node:fs'
import { basename, join, relative } from 'node:path'
import { afterAll, expect } from 'vitest'

/** What can be held against a published value: a number (with a tolerance), or a name, decision or absence (exactly). */
export type Checkable = number | string | boolean | null | readonly number[] | readonly string[]

export interface PublishedCheck {
  /** Author, year, table or equation: the same words for every check of one source. */
  readonly source: string
  readonly what: string
  readonly expected: Checkable
  readonly actual: Checkable | undefined
  /** Absolute. 0 for names and decisions. */
  readonly tolerance: number
  /** Why this tolerance, e.g. "printed with one decimal". */
  readonly why: string
}

interface Recorded {
  readonly source: string
  readonly what: string
  readonly values: number
  readonly error: number
  readonly tolerance: number
  readonly why: string
}

const recorded: Recorded[] = []

/**
 * Asserts one published value and remembers it for tests/published/README.md. A list counts as so many values; an empty
 * one, where the source says "none", as one.
 */
export function checkValue(check: PublishedCheck): void {
  const expected = asList(check.expected)
  const actual = asList(check.actual)
  const label = `${check.source}: ${check.what}`
  expect(actual.length, `${label} - how many values`).toBe(expected.length)
  const errors = expected.map((value, index) => errorOf(value, actual[index], label))
  for (const [index, error] of errors.entries()) {
    expect(error, `${label} - expected ${expected[index]}, got ${actual[index]}`).toBeLessThanOrEqual(check.tolerance)
  }
  const { source, what, tolerance, why } = check
  recorded.push({ source, what, values: Math.max(1, expected.length), error: Math.max(0, ...errors), tolerance, why })
}

function asList(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [value]
}

function errorOf(expected: unknown, actual: unknown, label: string): number {
  if (typeof expected === 'number' && typeof actual === 'number') return Math.abs(actual - expected)
  expect(actual, label).toBe(expected)
  return 0
}

afterAll(() => {
  const testPath = expect.getState().testPath
  if (testPath === undefined || recorded.length === 0) return
  const folder = join(process.cwd(), 'coverage', 'published')
  mkdirSync(folder, { recursive: true })
  const content = { testFile: relative(process.cwd(), testPath), checks: recorded }
  writeFileSync(join(folder, `${basename(testPath, '.test.ts')}.json`), `${JSON.stringify(content, null, 1)}\n`)
})
