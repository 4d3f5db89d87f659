import type { Messages } from '@/app/messages/for-report.ts'
import type { Difference } from '@/lib/audiometry/differences.ts'
import type { ScattergramCell } from '@/lib/outcomes/scattergram-cell.ts'
import type { ReportValue } from '@/lib/report/report-value.ts'

type ValueWords = Messages['report']['value']

/** What stands in a cell; `signed` for a change, where plus and minus say which way it went. */
export function valueText(value: ReportValue | undefined, words: ValueWords, style: 'plain' | 'signed'): string {
  if (value === undefined) return words.none
  switch (value.kind) {
    case 'level':
      return value.censored ? words.atLeast(words.plain(value.value)) : words.plain(value.value)
    case 'difference':
      return differenceText(value.difference, words, style)
    case 'bin':
      return words.bin[value.bin]
    case 'score':
      return words.score((100 * value.right) / value.items, value.right, value.items)
    case 'points':
      return words.points(value.points)
    case 'cell':
      return cellText(value.cell, words)
    case 'missing':
      return words.missing(value.frequencies)
    case 'absent':
      return words.why[value.why]
    default:
      return value satisfies never
  }
}

function differenceText(difference: Difference, words: ValueWords, style: 'plain' | 'signed'): string {
  if (difference.kind === 'undetermined') return words.undetermined
  const text = words[style](difference.value)
  if (difference.kind === 'exact') return text
  return difference.kind === 'at-least' ? words.atLeast(text) : words.atMost(text)
}

const cellText = (cell: ScattergramCell, words: ValueWords): string =>
  words.cell(rangeText(cell.averageAbove, cell.averageTo, words), rangeText(cell.scoreAbove, cell.scoreTo, words))

function rangeText(above: number | undefined, to: number | undefined, words: ValueWords): string {
  if (to === undefined) return words.over(above ?? 0)
  return above === undefined ? words.upTo(to) : words.between(above, to)
}
