import * as z from 'zod/mini'
import { CalendarDay, RecordId } from '../board/identity.ts'
import { HearingTest, PointRoute, TestCondition } from '../board/records/hearing-test.ts'
import { ForecastRecord, ScenarioRecord } from '../board/records/sealed-record.ts'
import { SpeechTest } from '../board/records/speech-test.ts'
import { Ear } from '../units/frequencies.ts'

/** Answers of the HTTP API that carry the records of a case, for programs that are no board. */

/** GET /api/cases/:id/tests: hearing tests and speech tests as they stand, each with its record code. */
export const TestsOfCase = z.strictObject({
  tests: z.array(z.strictObject({ code: z.string(), test: HearingTest })),
  speechTests: z.array(z.strictObject({ code: z.string(), test: SpeechTest })),
})
export type TestsOfCase = z.infer<typeof TestsOfCase>

/** A pure-tone average in dB HL; null where a frequency of the set is missing. `atLeast`: something was not heard. */
export const AverageOfTest = z.strictObject({
  route: PointRoute,
  convention: z.string(),
  source: z.string(),
  valueDbHl: z.nullable(z.number()),
  atLeast: z.boolean(),
  missingHz: z.array(z.number()),
})

/** GET /api/cases/:id/measures: what is computed from each test that counts, by which convention. */
export const MeasuresOfCase = z.strictObject({
  measures: z.array(
    z.strictObject({
      test: RecordId,
      code: z.string(),
      ear: Ear,
      condition: TestCondition,
      performedOn: CalendarDay,
      averages: z.array(AverageOfTest),
    }),
  ),
})
export type MeasuresOfCase = z.infer<typeof MeasuresOfCase>

/** GET /api/cases/:id/forecasts: sealed forecasts and frozen scenarios, as they were sealed. */
export const ForecastsOfCase = z.strictObject({
  forecasts: z.array(ForecastRecord),
  scenarios: z.array(ScenarioRecord),
})
export type ForecastsOfCase = z.infer<typeof ForecastsOfCase>
