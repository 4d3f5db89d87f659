import type { CouplingSite } from '../../lib/devices/classes.ts'
import type { SeriesFilter } from '../../lib/interchange/series-filter.ts'
import { meanAudiogram, meanRoutes } from '../../lib/outcomes/mean-audiogram.ts'
import { reportingBins } from '../../lib/outcomes/reporting-bins.ts'
import { scattergram } from '../../lib/outcomes/scattergram.ts'
import { seriesCalibration } from '../../lib/outcomes/series-calibration.ts'
import type { SeriesCase } from '../../lib/outcomes/series-case.ts'
import { seriesCourse } from '../../lib/outcomes/series-course.ts'
import type { EarResult } from '../../lib/outcomes/series-result.ts'
import { isSelected, onePerPatient } from '../../lib/outcomes/series-selection.ts'
import { compareSites, gainSpread } from '../../lib/outcomes/site-comparison.ts'
import type { Log } from '../log.ts'
import { oneByOne } from '../one-by-one.ts'
import type { Store } from '../store/store.ts'
import { KeptAnswers } from './kept-answers.ts'
import { KeptOutcomes } from './kept-outcomes.ts'
import { inChunks, inTurns } from './turns.ts'

/** Tags that a filter offers. */
const mostOffered = 50

const unfiltered: SeriesFilter = { at: 'latest', measure: 'effective-gain' }

type Added = Awaited<ReturnType<Series['addUp']>>

/** What the outcomes of cases give together, over those cases alone that a caller may see. */
export class Series {
  private readonly store: Store
  private readonly outcomes: KeptOutcomes
  private readonly answers = new KeptAnswers<Added>()
  /** Small steps of many that add up at once would together be a long one, for which edits wait. */
  private readonly inItsTurn = oneByOne()

  constructor(store: Store, log: Log) {
    this.store = store
    this.outcomes = new KeptOutcomes(store, log)
  }

  /** The outcomes of these cases as they stand now. @throws StoreOutage */
  async outcomesOf(caseIds: readonly string[]): Promise<readonly SeriesCase[]> {
    await this.outcomes.catchUp()
    return this.outcomes.of(caseIds)
  }

  /** Forgets what erased cases gave. @param existing ids of all cases */
  keepOnly(existing: readonly string[]): void {
    this.outcomes.keepOnly(existing)
  }

  /** Reads everything and adds it up once, so that the first who asks need not wait for it. @throws StoreOutage */
  async warm(): Promise<void> {
    const cases = await this.store.listCases()
    await this.answer(
      cases.map(({ id }) => id),
      unfiltered,
    )
  }

  /** Everything that the page of a series shows, with the ids of the cases that could not be read. @throws StoreOutage */
  async answer(caseIds: readonly string[], filter: SeriesFilter) {
    await this.outcomes.catchUp()
    const { revision } = this.outcomes
    return this.answers.get({ revision, caseIds, question: JSON.stringify(filter) }, () =>
      this.inItsTurn(() => this.addUp(caseIds, filter)),
    )
  }

  private async addUp(caseIds: readonly string[], filter: SeriesFilter) {
    const known = this.outcomes.of(caseIds)
    const unreadable = this.outcomes.unreadable(caseIds)
    const selected = known.filter((each) => isSelected(each, filter))
    const ears = onePerPatient(selected)
    const results = await this.outcomes.resultsOf(ears, filter.at)
    const courses = await this.outcomes.coursesOf(ears)
    const sites = countSites(results)
    const pair = pairOf(filter, sites)
    return {
      unreadable,
      ears: {
        cases: caseIds.length,
        empty: caseIds.length - known.length - unreadable.length,
        filteredOut: known.length - selected.length,
        secondOfPatient: selected.length - ears.length,
        n: ears.length,
        withResult: results.filter(({ after }) => (after?.aided.size ?? 0) > 0).length,
      },
      tags: countTags(known),
      sites,
      audiograms: await inChunks(meanRoutes, 1, (route) => meanAudiogram(route, results)),
      ...(await inTurns({
        bins: () => reportingBins(results),
        scattergram: () => scattergram(results),
        comparison: () => (pair === undefined ? null : compareSites(results, ...pair, filter.measure)),
        course: () => seriesCourse(courses),
        calibration: () => seriesCalibration(results),
        spread: () => gainSpread(results, filter.measure),
      })),
    }
  }
}

interface SiteCount {
  readonly site: CouplingSite
  readonly n: number
}

function countSites(results: readonly EarResult[]): readonly SiteCount[] {
  const counts = new Map<CouplingSite, number>()
  for (const { case: of, gainDb } of results)
    if (of.couplingSite !== null && gainDb.size > 0) counts.set(of.couplingSite, (counts.get(of.couplingSite) ?? 0) + 1)
  return [...counts].map(([site, n]) => ({ site, n })).toSorted((a, b) => b.n - a.n || a.site.localeCompare(b.site))
}

/** The sites that were asked for, or else those with most ears. */
function pairOf(
  { first, second }: SeriesFilter,
  sites: readonly SiteCount[],
): readonly [CouplingSite, CouplingSite] | undefined {
  const most = sites.map(({ site }) => site)
  const a = first ?? most.find((site) => site !== second)
  const b = second ?? most.find((site) => site !== a)
  return a === undefined || b === undefined ? undefined : [a, b]
}

function countTags(cases: readonly SeriesCase[]): readonly { readonly tag: string; readonly n: number }[] {
  const counts = new Map<string, number>()
  for (const { tags } of cases) for (const tag of tags) counts.set(tag, (counts.get(tag) ?? 0) + 1)
  return [...counts]
    .map(([tag, n]) => ({ tag, n }))
    .toSorted((a, b) => b.n - a.n || a.tag.localeCompare(b.tag))
    .slice(0, mostOffered)
}
