import { scattergramCell } from './scattergram-cell.ts'
import type { EarResult } from './series-result.ts'

/** Width of a cell: dB of the four-tone average, and percent of words. */
export const cellStep = 10

/** Ears in one cell: above these edges, up to and with the next ones. The first and last cells before take what lies beyond. */
export interface ScatterCell {
  readonly averageDb: number
  readonly wordsPercent: number
  readonly n: number
}

export interface Scattergram {
  /** before: average by air, and words */
  readonly before: readonly ScatterCell[]
  /** aided average after less average before, and words after less before: a fall of the average and a rise of words are better */
  readonly change: readonly ScatterCell[]
  readonly nBefore: number
  readonly nChange: number
  readonly missingBefore: number
  readonly missingChange: number
}

/**
 * Words over pure-tone average, each ear in a cell of 10 dB by 10 %: as many numbers as cells, however many ears. Of a change
 * the cells are read in the same way, which is from memory, unconfirmed.
 * Source: `scattergramReporting`. Checked by: tests/published/gurgel-2012-scattergram.test.ts, tests/unit/series/reporting.test.ts
 */
export function scattergram(results: readonly EarResult[]): Scattergram {
  const before = results.flatMap(({ averageBefore, before: at }) =>
    averageBefore === undefined || at?.wordsPercent === undefined ? [] : [edgesOf(averageBefore, at.wordsPercent)],
  )
  const change = results.flatMap(({ averageBefore, averageAfter, before: was, after: is }) =>
    averageBefore === undefined ||
    averageAfter === undefined ||
    was?.wordsPercent === undefined ||
    is?.wordsPercent === undefined
      ? []
      : [
          {
            averageDb: edgeUnder(averageAfter - averageBefore),
            wordsPercent: edgeUnder(is.wordsPercent - was.wordsPercent),
          },
        ],
  )
  return {
    before: counted(before),
    change: counted(change),
    nBefore: before.length,
    nChange: change.length,
    missingBefore: results.length - before.length,
    missingChange: results.length - change.length,
  }
}

type Edges = Omit<ScatterCell, 'n'>

function edgesOf(averageDb: number, wordsPercent: number): Edges {
  const { averageAbove = 0, scoreAbove = 0 } = scattergramCell(averageDb, wordsPercent)
  return { averageDb: averageAbove, wordsPercent: scoreAbove }
}

function counted(edges: readonly Edges[]): readonly ScatterCell[] {
  const cells = new Map<string, ScatterCell>()
  for (const { averageDb, wordsPercent } of edges) {
    const key = `${averageDb} ${wordsPercent}`
    cells.set(key, { averageDb, wordsPercent, n: (cells.get(key)?.n ?? 0) + 1 })
  }
  return [...cells.values()].toSorted((a, b) => a.averageDb - b.averageDb || a.wordsPercent - b.wordsPercent)
}

/** Nanounits forgive the last bit of a sum of thirds. */
const edgeUnder = (value: number): number => Math.ceil((value - 1e-9) / cellStep) * cellStep - cellStep
