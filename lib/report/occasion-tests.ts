import type { Audiogram } from '../audiometry/thresholds.ts'
import { audiogramOf } from '../board/audiograms.ts'
import { inForce, isBefore, testsBefore, testsOfVisit } from '../board/ear-course.ts'
import type { HearingTest, TestCondition } from '../board/records/hearing-test.ts'
import type { SpeechTest } from '../board/records/speech-test.ts'
import type { Ear } from '../units/frequencies.ts'

/** What counts of one ear on one occasion: before the operation, or at a visit. */
export interface OccasionTests {
  readonly hearing: Readonly<Partial<Record<TestCondition, HearingTest>>>
  readonly speech: readonly SpeechTest[]
}

interface Tests {
  readonly tests: readonly HearingTest[]
  readonly speechTests: readonly SpeechTest[]
}

/** @param cutoff calendar day of the operation; absent: not operated on yet, and everything lies before it */
export function occasionBefore({ tests, speechTests }: Tests, ear: Ear, cutoff: string | undefined): OccasionTests {
  return {
    hearing: testsBefore(tests, ear, cutoff),
    speech: inForce(speechTests.filter((test) => isBefore(test, cutoff))).filter((test) => test.ear === ear),
  }
}

export function occasionOfVisit({ tests, speechTests }: Tests, ear: Ear, visit: string): OccasionTests {
  return {
    hearing: testsOfVisit(tests, visit, ear),
    speech: inForce(speechTests.filter((test) => test.visit === visit)).filter((test) => test.ear === ear),
  }
}

const none: Audiogram = new Map()

/** The audiogram of a route; empty where it was not measured. */
export function routeOf({ hearing }: OccasionTests, route: 'air' | 'bone' | 'sound-field' | 'aided'): Audiogram {
  const test = hearing[route === 'air' || route === 'bone' ? 'unaided' : route]
  return test === undefined ? none : audiogramOf(test.points, route)
}
