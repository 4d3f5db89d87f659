import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { optionText } from '../../app/board/plan/option-text.ts'
import { inOrder, marginOver } from '../../app/board/plan/options-sort.ts'
import { shortRefusalText } from '../../app/board/plan/refusal-text.ts'
import { forecast as words } from '../../app/messages/en/forecast.ts'
import { words as shared } from '../../app/messages/en/words.ts'
import { airConductionAid, type Comparator, untreatedEar } from '../../lib/forecast/comparators.ts'
import type { EarOption } from '../../lib/forecast/ear-options.ts'
import type { Prediction } from '../../lib/forecast/prediction.ts'
import { createMiddleEar } from '../../lib/middle-ear/drive-change.ts'
import { type InventedEar, inventedEars, optionsOfInvented } from '../fixtures/invented-ears.ts'

/**
 * The tables of forecast-cases.md stand between marks and are made here; the arguments are written by hand. A page that is no
 * longer what the model says is written anew, and this fails until it is committed.
 */
const page = fileURLToPath(new URL('forecast-cases.md', import.meta.url))
const middleEar = createMiddleEar()

const minus = (text: string) => text.replaceAll('−', '-')
const withInterval = (prediction: Prediction | undefined, spell = words.number) => {
  if (prediction === undefined || prediction.kind === 'absent') return 'no number'
  if (prediction.kind === 'at-least') return words.atLeastText(spell(prediction.value))
  if (prediction.kind === 'at-most') return words.atMostText(spell(prediction.value))
  const { value, interval } = prediction
  return `${spell(value)} (${words.rangeText(spell(interval.low), spell(interval.high))})`
}

function rowOf({ option, outcome }: EarOption): readonly string[] {
  const name = optionText(option, undefined, shared)
  if (!outcome.ok) return [name, shortRefusalText(outcome.refusal, words, shared)]
  const { forecast } = outcome
  const margin = marginOver(forecast)
  const scores = forecast.wordScores.map(({ score }) => withInterval(score)).join(' / ') || 'none published'
  return [
    name,
    withInterval(forecast.fourTone.aidedThreshold),
    withInterval(forecast.fourTone.effectiveGain),
    withInterval(forecast.fourTone.residualGap),
    margin === undefined ? 'no number' : words.range(margin.low, margin.high),
    withInterval(forecast.speech.find(({ condition }) => condition === 'noise-65')?.aided, words.hundredth),
    scores,
  ]
}

function comparatorRow(comparator: Comparator): readonly string[] {
  const name = words.comparator[comparator.id]
  if (!comparator.ok) return [name, words.comparatorRefused[comparator.reason]]
  const { meanThreshold, speech } = comparator.forecast
  const index = speech.find(({ condition }) => condition === 'noise-65')?.index
  return [name, withInterval(meanThreshold), '', '', '', withInterval(index, words.hundredth)]
}

function tableOf(ear: InventedEar): string {
  const ranked = inOrder(optionsOfInvented(ear, middleEar), 'aided')
  const held = [untreatedEar(ear.tests), airConductionAid(ear.tests, ear.obstacle)]
  return minus(aligned([head, ...ranked.map(rowOf), ...held.map(comparatorRow)]))
}

const head = [
  'option',
  'aided mean, dB HL (80 %)',
  'effective gain, dB',
  'gap left, dB',
  'margin, dB',
  'SII in noise',
  'words, %',
]

/** As the formatter prints tables, so that it leaves them alone. */
function aligned(rows: readonly (readonly string[])[]): string {
  const widths = head.map((_, column) => Math.max(...rows.map((row) => (row[column] ?? '').length)))
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`
  const [first, ...rest] = rows.map((row) => line(widths.map((width, column) => (row[column] ?? '').padEnd(width))))
  return [first, line(widths.map((width) => '-'.repeat(width))), ...rest].join('\n')
}

test.each(inventedEars)('the numbers of $id in forecast-cases.md are those of the model', (ear) => {
  const text = readFileSync(page, 'utf8')
  const [from, to] = [`<!-- numbers of ${ear.id} -->`, `<!-- end of ${ear.id} -->`]
  const [start, end] = [text.indexOf(from), text.indexOf(to)]
  expect(
    [start, end].every((place) => place >= 0),
    `${from} ... ${to} in forecast-cases.md`,
  ).toBe(true)
  const written = text.slice(start + from.length, end).trim()
  const table = tableOf(ear)
  if (written !== table) writeFileSync(page, `${text.slice(0, start + from.length)}\n\n${table}\n\n${text.slice(end)}`)
  expect(written, 'forecast-cases.md was written anew: read it, mend its arguments, commit it').toBe(table)
})
