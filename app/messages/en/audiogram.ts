import type { Point, PointRoute, TestCondition, TestState } from '@/lib/board/records/hearing-test.ts'
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

const testStates: Record<TestState, string> = {
  current: 'Current test',
  superseded: 'SUPERSEDED test',
  'entered-in-error': 'ENTERED IN ERROR',
}
const conditions: Record<TestCondition, string> = {
  unaided: 'unaided',
  'sound-field': 'sound field',
  aided: 'aided',
}

export interface TestInWords {
  readonly state: TestState
  readonly ear: Ear
  readonly condition: TestCondition
  readonly performedOn: string
  readonly verifiedBy?: string | undefined
  readonly verifiedOn?: string | undefined
}

const testDetails = ({ ear, condition, performedOn, verifiedBy, verifiedOn }: TestInWords): string =>
  [
    ears[ear].toLowerCase(),
    conditions[condition],
    performedOn,
    verifiedBy === undefined ? 'not verified' : `verified by ${verifiedBy} on ${verifiedOn ?? ''}`,
  ].join(', ')

const masking = (masked: boolean) => (masked ? 'masked' : 'not masked')

function pointInWords(point: Point): string {
  switch (point.kind) {
    case 'heard':
      return `${point.level} dB HL`.replace('-', '−')
    case 'no-response':
      return `no response at ${point.limit} dB HL`.replace('-', '−')
    case 'could-not-test':
      return 'could not test'
    default:
      return point satisfies never
  }
}

export const audiogram = {
  ears,
  earLetters,
  routes,
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
  pointInWords,
  /** One line that says which test is meant and how far it may be trusted. */
  testSentence: (test: TestInWords) => `${testStates[test.state]}, ${testDetails(test)}`,
  testStates,
  testDetails,
  code: 'Record code',
  chartLabel: (shown: readonly string[]) =>
    shown.length === 0 ? 'Audiogram without a test' : `Audiogram. ${shown.join('. ')}`,
  table: {
    repeat: (dbHl: number) => `Air conduction repeated at 1000 Hz: ${dbHl} dB HL`.replace('-', '−'),
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
