import type { RecordId } from '../identity.ts'
import { byRank } from '../reading.ts'
import { rankBetween } from './writing.ts'

/**
 * The rank that puts one record a place up (-1) or down (1) among these.
 * @returns undefined when it is not among them or already at that end
 */
export function rankAfterShift(
  records: readonly { readonly rank: string; readonly id: string }[],
  id: RecordId,
  by: -1 | 1,
): string | undefined {
  const queue = [...records].sort(byRank)
  const from = queue.findIndex((record) => record.id === id)
  const to = from + by
  if (from < 0 || to < 0 || to >= queue.length) return undefined
  const others = queue.filter((record) => record.id !== id)
  return rankBetween(others[to - 1]?.rank, others[to]?.rank)
}
