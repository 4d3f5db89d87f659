import { type AverageId, pureToneAverage } from '../../../lib/audiometry/averages.ts'
import { audiogramOf } from '../../../lib/board/audiograms.ts'
import { type HearingTest, routesOf } from '../../../lib/board/records/hearing-test.ts'
import type { Role } from '../../../lib/board/roles.ts'
import type { ForecastsOfCase, MeasuresOfCase, TestsOfCase } from '../../../lib/interchange/case-data.ts'
import type { CaseRecords } from '../../../lib/interchange/case-records.ts'
import { recordCode, speechTestCode } from '../../../lib/interchange/record-code.ts'
import type { Caller } from '../../people/people.ts'
import type { ApiParts } from '../api.ts'
import { ok, type Reply, refuse } from '../reply.ts'
import { type Ask, get, type Route, signedIn } from '../routes.ts'

/** The record of a case as data, for everybody who may open its board. */
export function caseDataRoutes({ store, exchange }: ApiParts): readonly Route[] {
  const about =
    (answer: (records: CaseRecords) => unknown) =>
    async ({ caller, params }: Ask<unknown, Caller>): Promise<Reply> => {
      const place = await store.findCase(params.id ?? '')
      const role: Role | undefined = place === null ? undefined : caller.access.roleIn(place)
      if (place === null || role === undefined) return refuse('not-permitted')
      return ok(answer((await exchange.recordsOf(place.id)).records))
    }
  return [
    get('/api/cases/:id/tests', signedIn, about(testsOf)),
    get('/api/cases/:id/measures', signedIn, about(measuresOf)),
    get('/api/cases/:id/forecasts', signedIn, about(forecastsOf)),
  ]
}

const testsOf = ({ tests, speechTests }: CaseRecords): TestsOfCase => ({
  tests: tests.map((test) => ({ code: recordCode(test), test })),
  speechTests: speechTests.map((test) => ({ code: speechTestCode(test), test })),
})

const forecastsOf = ({ forecasts, scenarios }: CaseRecords): ForecastsOfCase => ({
  forecasts: [...forecasts],
  scenarios: [...scenarios],
})

const averagesGiven: readonly AverageId[] = ['pta4-who', 'pta4-aao', 'pta3', 'hf-bone', 'band-high']

const measuresOf = ({ tests }: CaseRecords): MeasuresOfCase => ({
  measures: tests
    .filter(({ state }) => state !== 'entered-in-error')
    .map((test) => ({
      test: test.id,
      code: recordCode(test),
      ear: test.ear,
      condition: test.condition,
      performedOn: test.performedOn,
      averages: averagesOf(test),
    })),
})

function averagesOf({ condition, points }: HearingTest): MeasuresOfCase['measures'][number]['averages'] {
  return routesOf[condition].flatMap((route) => {
    const audiogram = audiogramOf(points, route)
    if (audiogram.size === 0) return []
    return averagesGiven.map((id) => {
      const { value, censored, missing, convention } = pureToneAverage(audiogram, id)
      return {
        route,
        convention: id,
        source: convention.source,
        valueDbHl: value ?? null,
        atLeast: censored,
        missingHz: [...missing],
      }
    })
  })
}
