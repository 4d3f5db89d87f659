// Gurgel RK, Jackler RK, Dobie RA, Popelka GR, Otolaryngol Head Neck Surg 147:803-807, 2012: each ear is counted in a cell of
// 10 dB pure-tone average by 10 % word recognition. Limits of the cells from memory, unconfirmed: 0-10, 11-20, ... 81-90,
// > 90 dB HL; 100-91, ... 20-11, 10-0 %.
import { expect, it } from 'vitest'
import { scattergramCell } from '../../lib/outcomes/scattergram-cell.ts'
import { checkValue } from './record-check.ts'

const source = 'Gurgel et al. 2012, scattergram (cells from memory, unconfirmed)'

it.each([
  [0, 100, 'to 10', '90 to 100'],
  [-5, 91, 'to 10', '90 to 100'],
  [10, 90, 'to 10', '80 to 90'],
  [10.625, 90.5, '10 to 20', '90 to 100'],
  [48.75, 72, '40 to 50', '70 to 80'],
  [90, 11, '80 to 90', '10 to 20'],
  [90.5, 10, 'above 90', 'to 10'],
  [120, 0, 'above 90', 'to 10'],
])('puts %s dB HL and %s %% into its cell', (average, score, column, row) => {
  const { averageAbove, averageTo, scoreAbove, scoreTo } = scattergramCell(average, score)
  const named = (above: number | undefined, to: number | undefined) =>
    to === undefined ? `above ${above}` : above === undefined ? `to ${to}` : `${above} to ${to}`
  checkValue({
    source,
    what: `${average} dB HL, ${score} %`,
    expected: [column, row],
    actual: [named(averageAbove, averageTo), named(scoreAbove, scoreTo)],
    tolerance: 0,
    why: 'names of cells',
  })
})

it('refuses what is no average or score', () => {
  expect(() => scattergramCell(140, 50)).toThrow(RangeError)
  expect(() => scattergramCell(Number.NaN, 50)).toThrow(RangeError)
  expect(() => scattergramCell(40, 101)).toThrow(RangeError)
})
