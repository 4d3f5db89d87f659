import type { PointRoute, TestState } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

const ears: Record<Ear, string> = { right: 'Right ear', left: 'Left ear' }
const earLetters: Record<Ear, string> = { right: 'R', left: 'L' }
const routes: Record<PointRoute, string> = {
  air: 'air conduction',
  bone: 'bone conduction',
  'sound-field': 'sound field',
  aided: 'aided sound field',
}
const routesShort: Record<PointRoute, string> = { air: 'AC', bone: 'BC', 'sound-field': 'SF', aided: 'aided' }
const states: Record<TestState, string> = {
  current: 'Current',
  superseded: 'Superseded',
  'entered-in-error': 'Entered in error',
}
const stamps: Record<Exclude<TestState, 'current'>, string> = {
  superseded: 'SUPERSEDED',
  'entered-in-error': 'ENTERED IN ERROR',
}

const masking = (masked: boolean) => (masked ? 'masked' : 'not masked')

export const audiogram = {
  ears,
  earLetters,
  routes,
  routesShort,
  states,
  stamps,
  masking,
  levelUnit: 'dB HL',
  frequencyUnit: 'Hz',
  couldNotTest: 'CNT',
  lane: (ear: Ear, route: PointRoute) => `${earLetters[ear]} ${routesShort[route]}`,
  stampOf: (ear: Ear, state: Exclude<TestState, 'current'>) => `${ears[ear].toUpperCase()}: ${stamps[state]}`,
  question: (number: number) => `Q${number}`,
  readout: (ear: Ear, route: PointRoute, frequency: number, value: string) =>
    `${earLetters[ear]} ${routesShort[route]} ${frequency} Hz: ${value}`,
  level: (level: number) => `${level} dB HL`.replace('-', '−'),
  noResponseAt: (limit: number) => `no response at ${limit} dB HL`.replace('-', '−'),
  couldNotTestLong: 'could not test',
  notTested: 'not tested',
  table: {
    caption: (what: string) => `${what}: thresholds in dB HL`,
    route: 'Route and masking',
    row: (route: PointRoute, masked: boolean) => `${routes[route]}, ${masking(masked)}`,
    notTested: '–',
    noResponse: (limit: number) => `no response at ${limit}`.replace('-', '−'),
    couldNotTest: 'could not test',
    empty: 'No threshold has been entered.',
    offGrid: 'not on the 5 dB grid',
  },
}
