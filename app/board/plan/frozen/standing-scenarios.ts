import type { ScenarioRecord } from '@/lib/board/records/sealed-record.ts'

/** Frozen scenarios that nothing has superseded, the newest first. */
export function standingScenarios(scenarios: readonly ScenarioRecord[]): readonly ScenarioRecord[] {
  const superseded = new Set(scenarios.map(({ supersedes }) => supersedes))
  return newestFirst(scenarios).filter(({ id }) => !superseded.has(id))
}

export const newestFirst = <T extends { readonly at: string }>(records: readonly T[]): readonly T[] =>
  records.toSorted((a, b) => b.at.localeCompare(a.at))
