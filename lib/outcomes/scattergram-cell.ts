import { outsideDomain } from '../audiometry/domain.ts'
import type { Provenance } from '../audiometry/provenance.ts'

/** A cell of the scattergram of pure-tone average against word recognition: the limits of its column and row. */
export interface ScattergramCell {
  /** dB HL; the first column takes everything up to 10, the last everything above 90 */
  readonly averageAbove: number | undefined
  readonly averageTo: number | undefined
  /** percent; the last row takes everything down to 0 */
  readonly scoreAbove: number | undefined
  readonly scoreTo: number
}

export const scattergramReporting: Provenance = {
  source: 'Gurgel et al., Otolaryngol Head Neck Surg 147:803-807, 2012',
  status: 'confirmed',
  reservation: 'cells of 10 dB by 10 % are from memory, unconfirmed',
}

/**
 * The cell of one ear. Averages fall between the printed limits (10.6 dB lies between 0-10 and 11-20): columns are read as
 * cut-offs with the upper one included, rows likewise.
 * @param averageDbHl mean of 0.5, 1, 2 and 3 kHz in dB HL, -20 to 130
 * @param scorePercent word recognition, 0 to 100
 * @throws RangeError when an argument is out of domain
 * Source: `scattergramReporting`. Checked by: tests/published/gurgel-2012-scattergram.test.ts
 */
export function scattergramCell(averageDbHl: number, scorePercent: number): ScattergramCell {
  if (!(averageDbHl >= -20 && averageDbHl <= 130)) throw outsideDomain('averageDbHl', averageDbHl, '-20 to 130 dB HL')
  if (!(scorePercent >= 0 && scorePercent <= 100)) throw outsideDomain('scorePercent', scorePercent, '0 to 100 %')
  const column = Math.min(9, Math.max(0, Math.ceil(averageDbHl / 10) - 1))
  const rowFromBelow = Math.max(0, Math.ceil(scorePercent / 10) - 1)
  return {
    averageAbove: column === 0 ? undefined : column * 10,
    averageTo: column === 9 ? undefined : column * 10 + 10,
    scoreAbove: rowFromBelow === 0 ? undefined : rowFromBelow * 10,
    scoreTo: rowFromBelow * 10 + 10,
  }
}
