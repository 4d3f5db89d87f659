import type { Direction, Part } from './network.ts'

/**
 * Resistances of a chain of masses and springs in which mode r loses energy with the factor `lossFactors[r]` times its own
 * angular frequency: C = M Phi diag(eta omega) Phi' M, with the modes Phi normalised by the masses, slowest first.
 * @returns row after row, N s/m
 */
export function modalDamping(parts: readonly Part[], points: number, lossFactors: readonly number[]): Float64Array {
  const rootMass = rootsOfMasses(parts, points)
  const { values, vectors } = modesOf(normalisedStiffness(parts, points, rootMass), points)
  const slowestFirst = [...values.keys()].toSorted((a, b) => at(values, a) - at(values, b))
  const damping = new Float64Array(points * points)
  for (const [rank, mode] of slowestFirst.entries()) {
    const loss = (lossFactors[rank] ?? 0) * Math.sqrt(Math.max(0, at(values, mode)))
    for (let row = 0; row < points; row++) {
      for (let column = 0; column < points; column++) {
        const shape = at(vectors, row * points + mode) * at(vectors, column * points + mode)
        const place = row * points + column
        damping[place] = at(damping, place) + loss * shape * at(rootMass, row) * at(rootMass, column)
      }
    }
  }
  return damping
}

const at = (list: Float64Array, index: number): number => list[index] as number

/** The masses of these chains stand alone, each at its point. */
function rootsOfMasses(parts: readonly Part[], points: number): Float64Array {
  const mass = new Float64Array(points)
  for (const { along, mass: own } of parts)
    for (let point = 0; point < points; point++) mass[point] = at(mass, point) + own * (along[point] ?? 0) ** 2
  return mass.map(Math.sqrt)
}

function normalisedStiffness(parts: readonly Part[], points: number, rootMass: Float64Array): Float64Array {
  const matrix = new Float64Array(points * points)
  const weight = (along: Direction, point: number) => (along[point] ?? 0) / at(rootMass, point)
  for (const { along, stiffness } of parts) {
    if (stiffness === 0) continue
    for (let row = 0; row < points; row++)
      for (let column = 0; column < points; column++) {
        const place = row * points + column
        matrix[place] = at(matrix, place) + stiffness * weight(along, row) * weight(along, column)
      }
  }
  return matrix
}

interface Modes {
  readonly values: Float64Array
  /** mode k in column k */
  readonly vectors: Float64Array
}

const sweeps = 12

/** Eigenvalues and vectors of a small symmetric matrix by Jacobi's rotations (Golub and Van Loan, 8.5). */
function modesOf(matrix: Float64Array, points: number): Modes {
  const a = matrix.slice()
  const vectors = new Float64Array(points * points)
  for (let point = 0; point < points; point++) vectors[point * points + point] = 1
  for (let sweep = 0; sweep < sweeps; sweep++) {
    let turned = false
    for (let p = 0; p < points - 1; p++)
      for (let q = p + 1; q < points; q++) turned = rotate(a, vectors, points, p, q) || turned
    if (!turned) break
  }
  return { values: Float64Array.from({ length: points }, (_, point) => at(a, point * points + point)), vectors }
}

/** One rotation that clears a[p][q]; false when there is nothing left to clear. */
function rotate(a: Float64Array, vectors: Float64Array, points: number, p: number, q: number): boolean {
  const off = at(a, p * points + q)
  const [atP, atQ] = [at(a, p * points + p), at(a, q * points + q)]
  if (Math.abs(off) <= 1e-15 * Math.sqrt(Math.abs(atP * atQ))) return false
  const theta = (atQ - atP) / (2 * off)
  const tangent = Math.sign(theta || 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1))
  const cosine = 1 / Math.sqrt(tangent * tangent + 1)
  const sine = tangent * cosine
  for (let k = 0; k < points; k++) turn(a, k * points + p, k * points + q, cosine, sine)
  for (let k = 0; k < points; k++) turn(a, p * points + k, q * points + k, cosine, sine)
  for (let k = 0; k < points; k++) turn(vectors, k * points + p, k * points + q, cosine, sine)
  return true
}

function turn(list: Float64Array, first: number, second: number, cosine: number, sine: number): void {
  const [x, y] = [at(list, first), at(list, second)]
  list[first] = cosine * x - sine * y
  list[second] = sine * x + cosine * y
}
