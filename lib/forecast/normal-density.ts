/**
 * Logarithm of the density of a multivariate normal.
 * @param deviation from the mean
 * @param covariance symmetric and positive definite, as many rows and columns as deviations
 * @throws RangeError when the sizes differ or the covariance is not positive definite
 * Method: Cholesky factor, Golub and Van Loan, Matrix Computations, 4.2 (from memory). Checked by: tests/published/scipy-1-17-density.test.ts
 */
export function normalLogDensity(deviation: readonly number[], covariance: readonly (readonly number[])[]): number {
  const n = deviation.length
  if (covariance.length !== n || covariance.some((row) => row.length !== n))
    throw new RangeError(`covariance has ${covariance.length} rows, but has to be ${n} by ${n}`)
  const factor: number[][] = []
  const scaled: number[] = []
  let logDeterminant = 0
  for (let i = 0; i < n; i++) {
    const row: number[] = []
    for (let j = 0; j <= i; j++) {
      const rest = at(covariance[i], j) - dot(row, factor[j] ?? row, j)
      if (i === j && !(rest > 0)) throw new RangeError('covariance is not positive definite')
      row.push(i === j ? Math.sqrt(rest) : rest / at(factor[j], j))
    }
    factor.push(row)
    scaled.push((at(deviation, i) - dot(row, scaled, i)) / at(row, i))
    logDeterminant += 2 * Math.log(at(row, i))
  }
  const distance = scaled.reduce((sum, value) => sum + value ** 2, 0)
  return -0.5 * (n * Math.log(2 * Math.PI) + logDeterminant + distance)
}

const at = (row: readonly number[] | undefined, index: number): number => row?.[index] ?? 0

/** Sum of products of the first `length` entries. */
function dot(a: readonly number[], b: readonly number[], length: number): number {
  let sum = 0
  for (let k = 0; k < length; k++) sum += at(a, k) * at(b, k)
  return sum
}
