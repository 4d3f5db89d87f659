import { setImmediate as nextTurn } from 'node:timers/promises'
import { seriesCaseFrom } from '../../lib/interchange/outcome-columns.ts'
import type { SeriesCase } from '../../lib/outcomes/series-case.ts'
import { type CoursePoint, coursePoints } from '../../lib/outcomes/series-course.ts'
import { type EarResult, earResult, type ResultAt } from '../../lib/outcomes/series-result.ts'
import type { Log } from '../log.ts'
import type { KeptOutcome, Store } from '../store/store.ts'
import { inChunks } from './turns.ts'

/** Cases read, or results computed, before others have their turn: a few milliseconds. */
const chunk = 100

interface Kept {
  readonly of: SeriesCase | undefined
  /** its columns hold what no case gives */
  readonly isUnreadable: boolean
  /** computed once a visit that counts; a changed case is another `Kept` */
  readonly results: Map<ResultAt, EarResult>
  course: readonly CoursePoint[] | undefined
}

/** Outcomes of all cases, read from their columns once and then as far as they have changed. */
export class KeptOutcomes {
  private readonly store: Store
  private readonly log: Log
  private readonly kept = new Map<string, Kept>()
  private read = 0
  private reading: Promise<void> = Promise.resolve()

  constructor(store: Store, log: Log) {
    this.store = store
    this.log = log
  }

  /** Of the last change that was read; what is added up from the same revision is the same. */
  get revision(): number {
    return this.read
  }

  /** Reads what came since. One reader at a time; whoever asks meanwhile waits for it and then reads on. @throws StoreOutage */
  catchUp(): Promise<void> {
    const next = this.reading.then(
      () => this.readOn(),
      () => this.readOn(),
    )
    this.reading = next
    return next
  }

  /** Those that have an ear and can be read. */
  of(caseIds: readonly string[]): readonly SeriesCase[] {
    return caseIds.flatMap((id) => this.kept.get(id)?.of ?? [])
  }

  unreadable(caseIds: readonly string[]): readonly string[] {
    return caseIds.filter((id) => this.kept.get(id)?.isUnreadable === true)
  }

  /** Forgets what erased cases gave. @param existing ids of all cases */
  keepOnly(existing: readonly string[]): void {
    if (this.kept.size <= existing.length) return
    const there = new Set(existing)
    for (const id of this.kept.keys()) if (!there.has(id)) this.kept.delete(id)
  }

  resultsOf(cases: readonly SeriesCase[], at: ResultAt): Promise<readonly EarResult[]> {
    return inChunks(cases, chunk, (each) => this.resultOf(each, at))
  }

  coursesOf(cases: readonly SeriesCase[]): Promise<readonly (readonly CoursePoint[])[]> {
    return inChunks(cases, chunk, (each) => this.courseOf(each))
  }

  private resultOf(each: SeriesCase, at: ResultAt): EarResult {
    const kept = this.keptOf(each)
    const result = kept?.results.get(at) ?? earResult(each, at)
    kept?.results.set(at, result)
    return result
  }

  private courseOf(each: SeriesCase): readonly CoursePoint[] {
    const kept = this.keptOf(each)
    const course = kept?.course ?? coursePoints(each)
    if (kept !== undefined) kept.course = course
    return course
  }

  /** Undefined when the case has changed since it was asked for. */
  private keptOf(each: SeriesCase): Kept | undefined {
    const kept = this.kept.get(each.id)
    return kept?.of === each ? kept : undefined
  }

  private async readOn(): Promise<void> {
    for (;;) {
      const changed = await this.store.outcomesSince(this.read, chunk)
      for (const outcome of changed) {
        this.kept.set(outcome.caseId, this.keptFrom(outcome))
        this.read = outcome.revision
      }
      if (changed.length < chunk) return
      await nextTurn()
    }
  }

  /** One case that another version or a hand wrote otherwise must not take the series from all the others. */
  private keptFrom({ caseId, revision, ...outcome }: KeptOutcome): Kept {
    try {
      return { of: seriesCaseFrom(caseId, outcome), isUnreadable: false, results: new Map(), course: undefined }
    } catch (error) {
      this.log.error('series-case-unreadable', error, { case: caseId, revision })
      return { of: undefined, isUnreadable: true, results: new Map(), course: undefined }
    }
  }
}
