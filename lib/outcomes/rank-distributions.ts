/**
 * Exact distributions of two rank statistics without ties, as cumulative probabilities from 0 upward. Counts are built
 * by generating functions, so no table is stored.
 */

/**
 * Cumulative distribution of Wilcoxon's signed-rank sum of `n` values: entry s is P(W <= s), s from 0 to n (n + 1) / 2.
 * `n` is an integer from 1; meant for up to 50. Source: product of (1 + x^k), k = 1 to n, over 2^n.
 * Checked by: tests/published/r-4-2-hodges-lehmann.test.ts
 */
export function signedRankCdf(n: number): readonly number[] {
  const last = (n * (n + 1)) / 2
  const density = new Array<number>(last + 1).fill(0)
  density[0] = 1
  for (let rank = 1; rank <= n; rank++) {
    for (let sum = last; sum >= 0; sum--) density[sum] = (valueAt(density, sum) + valueAt(density, sum - rank)) / 2
  }
  return cumulated(density)
}

/**
 * Cumulative distribution of the Mann-Whitney count of two samples: entry u is P(U <= u), u from 0 to m n.
 * `m` and `n` are integers from 1; meant for up to 50. Source: the recurrence of Mann and Whitney, Ann Math Stat
 * 18:50-60, 1947, in probabilities. Checked by: tests/published/r-4-2-hodges-lehmann.test.ts
 */
export function mannWhitneyCdf(m: number, n: number): readonly number[] {
  // Row of all second-sample sizes 0..n for a first sample of `size`; started with size 0, where U is always 0.
  let row: readonly (readonly number[])[] = Array.from({ length: n + 1 }, () => [1])
  for (let size = 1; size <= m; size++) row = nextRow(row, size)
  return cumulated(row[n] ?? [])
}

/** The largest value belongs to the first sample (size / all), and then beats every one of the second, or to the second. */
function nextRow(previous: readonly (readonly number[])[], size: number): readonly (readonly number[])[] {
  const row: (readonly number[])[] = [[1]]
  for (let other = 1; other < previous.length; other++) {
    const firstLargest = previous[other] ?? []
    const secondLargest = row[other - 1] ?? []
    const share = size / (size + other)
    const density = Array.from(
      { length: size * other + 1 },
      (_, count) => share * valueAt(firstLargest, count - other) + (1 - share) * valueAt(secondLargest, count),
    )
    row.push(density)
  }
  return row
}

function cumulated(density: readonly number[]): readonly number[] {
  let sum = 0
  return density.map((probability) => {
    sum += probability
    return sum
  })
}

const valueAt = (values: readonly number[], index: number): number => values[index] ?? 0
