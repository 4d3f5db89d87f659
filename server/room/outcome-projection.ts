import { operationDay } from '../../lib/board/day-of-operation.ts'
import { earCourseOf, standingForecast, testsBefore } from '../../lib/board/ear-course.ts'
import { onlyId } from '../../lib/board/identity.ts'
import { isScore, type SpeechTest } from '../../lib/board/records/speech-test.ts'
import { isHeld, type Visit } from '../../lib/board/records/visit.ts'
import type { TableView } from '../../lib/board/rules.ts'
import { type CaseOutcome, thresholdsText, type VisitOutcome } from '../../lib/interchange/outcome-columns.ts'
import type { EarMeasured } from '../../lib/outcomes/ear-course.ts'
import type { Ear } from '../../lib/units/frequencies.ts'

/** What a case's record document gives to the series: the planned ear before its operation and at every held visit. */
export function projectOutcome(tables: TableView): CaseOutcome {
  const header = tables.get('header', onlyId)
  const plan = tables.get('plan', onlyId)
  const ear = plan?.ear ?? header?.ear ?? null
  return {
    patient: header?.pseudonym ?? '',
    ear,
    deviceClass: plan?.deviceClass ?? null,
    couplingSite: plan?.couplingSite ?? null,
    pathology: header?.pathology ?? null,
    malleus: plan?.malleus ?? null,
    incus: plan?.incus ?? null,
    stapes: plan?.stapes ?? null,
    operatedOn: operationDay(tables) ?? null,
    tags: (header?.tags ?? []).join(','),
    forecast: ear === null ? null : forecastColumn(tables, ear),
    visits: ear === null ? [] : visitsOf(tables, ear),
  }
}

/** Only a forecast of what was then planned can be held against the result. */
function forecastColumn(tables: TableView, ear: Ear): string | null {
  const plan = tables.get('plan', onlyId)
  const forecasts = [...tables.values('forecasts')].filter(
    ({ content: { option } }) => option.deviceClass === plan?.deviceClass && option.couplingSite === plan.couplingSite,
  )
  const standing = standingForecast({ ear, forecasts })
  return standing === undefined ? null : JSON.stringify(standing.content.fourTone.aidedThreshold)
}

function visitsOf(tables: TableView, ear: Ear): readonly VisitOutcome[] {
  const tests = [...tables.values('tests')]
  const visits = [...tables.values('visits')]
  const operatedOn = operationDay(tables)
  const speechTests = [...tables.values('speechTests')]
  const course = earCourseOf({ ear, tests, speechTests, visits, forecasts: [], operatedOn })
  const speech = speechTests.filter((test) => test.ear === ear)
  const cutoff = operatedOn ?? course.visits[0]?.on
  const unaided = testsBefore(tests, ear, cutoff).unaided
  const before: VisitOutcome = {
    visit: '',
    occasion: 'before',
    year: null,
    heldOn: unaided?.performedOn ?? null,
    ...routesText(course.before),
    wordsPercent: latestScore(
      speech.filter(
        ({ visit, condition, performedOn }) =>
          visit === undefined && condition === 'unaided' && (cutoff === undefined || performedOn <= cutoff),
      ),
    ),
  }
  const byId = new Map(visits.filter(isHeld).map((visit) => [visit.id, visit] satisfies [string, Visit]))
  const after = course.visits.flatMap(({ visit: id, on, ear: measured }): VisitOutcome[] => {
    const visit = byId.get(id)
    if (visit === undefined) return []
    const aided = speech.filter((test) => test.visit === id && test.condition === 'aided')
    return [
      {
        visit: id,
        occasion: visit.occasion,
        year: visit.year ?? null,
        heldOn: on,
        ...routesText(measured),
        wordsPercent: latestScore(aided),
      },
    ]
  })
  return [before, ...after]
}

const routesText = ({ air, bone, soundField, aided }: EarMeasured) => ({
  air: thresholdsText(air?.thresholds),
  bone: thresholdsText(bone?.thresholds),
  soundField: thresholdsText(soundField?.thresholds),
  aided: thresholdsText(aided?.thresholds),
})

/** Of several lists in quiet, as at several levels, the best of the latest day. */
function latestScore(tests: readonly SpeechTest[]): number | null {
  const scores = tests
    .filter(isScore)
    .filter(
      ({ material, noiseLevel, state }) =>
        material === 'monosyllables' && noiseLevel === undefined && state !== 'entered-in-error',
    )
  const latest = scores
    .map(({ performedOn }) => performedOn)
    .sort()
    .at(-1)
  const shares = scores
    .filter(({ performedOn }) => performedOn === latest)
    .map(({ right, items }) => (100 * right) / items)
  return shares.length === 0 ? null : Math.max(...shares)
}
