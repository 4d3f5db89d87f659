/** Answers that are kept: of a few filters, each as some people of different rights see it. */
const mostAnswers = 24

interface KeptAnswer<T> {
  readonly revision: number
  readonly question: string
  readonly caseIds: readonly string[]
  readonly answer: Promise<T>
}

/** What was asked before of the same cases as they still are. Whoever asks the same meanwhile waits for the same answer. */
export class KeptAnswers<T> {
  private kept: readonly KeptAnswer<T>[] = []

  /** @param compute is asked when the answer is not known; one that failed is asked again */
  get(asked: Omit<KeptAnswer<T>, 'answer'>, compute: () => Promise<T>): Promise<T> {
    const current = this.kept.filter(({ revision }) => revision === asked.revision)
    const known = current.find(
      ({ question, caseIds }) => question === asked.question && areSame(caseIds, asked.caseIds),
    )
    const used = known ?? { ...asked, answer: compute() }
    this.kept = [used, ...current.filter((each) => each !== used)].slice(0, mostAnswers)
    if (known === undefined) used.answer.catch(() => this.forget(used))
    return used.answer
  }

  private forget(failed: KeptAnswer<T>): void {
    this.kept = this.kept.filter((each) => each !== failed)
  }
}

const areSame = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((id, index) => id === b[index])
