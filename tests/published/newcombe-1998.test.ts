import { describe, it } from 'vitest'
import { proportionDifference } from '../../lib/outcomes/proportions.ts'
import { checkValue } from './record-check.ts'

const source = 'Newcombe, Stat Med 17:873-890, 1998, Table II, method 10'

// [events 1, total 1, events 2, total 2] and the printed limits
const examples = [
  { counts: [56, 70, 48, 80], expected: [0.0524, 0.3339] },
  { counts: [9, 10, 3, 10], expected: [0.1705, 0.809] },
  { counts: [6, 7, 2, 7], expected: [0.0582, 0.8062] },
  { counts: [5, 56, 0, 29], expected: [-0.0381, 0.1926] },
  { counts: [0, 10, 0, 20], expected: [-0.1611, 0.2775] },
  { counts: [0, 10, 0, 10], expected: [-0.2775, 0.2775] },
  { counts: [10, 10, 0, 20], expected: [0.6791, 1] },
  { counts: [10, 10, 0, 10], expected: [0.6075, 1] },
] as const

describe('difference of two proportions', () => {
  it.each(examples)('$counts', ({ counts: [events, total, otherEvents, otherTotal], expected }) => {
    const { low, high } = proportionDifference({ events, total }, { events: otherEvents, total: otherTotal })
    const what = `${events} of ${total} against ${otherEvents} of ${otherTotal}`
    checkValue({ source, what, expected, actual: [low, high], tolerance: 0.00005, why: 'printed with four decimals' })
  })
})
