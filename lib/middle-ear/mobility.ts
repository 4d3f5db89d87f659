import type { Complex } from './complex.ts'

/** A square complex matrix, row after row. */
export interface Matrix {
  readonly size: number
  readonly re: Float64Array
  readonly im: Float64Array
}

export const emptyMatrix = (size: number): Matrix => ({
  size,
  re: new Float64Array(size * size),
  im: new Float64Array(size * size),
})

/** Adds `z` times the outer product of `along` with itself: one element of a network, between the points it joins. */
export function addElement({ size, re, im }: Matrix, along: readonly number[], z: Complex): void {
  const reach = Math.min(size, along.length)
  for (let row = 0; row < reach; row++) {
    const atRow = along[row] as number
    if (atRow === 0) continue
    for (let column = 0; column < reach; column++) {
      const weight = atRow * (along[column] as number)
      if (weight === 0) continue
      const at = row * size + column
      re[at] = (re[at] as number) + weight * z.re
      im[at] = (im[at] as number) + weight * z.im
    }
  }
}

/**
 * The inverse of an impedance matrix: velocity at each point for a force of 1 N at each point, m/(N s).
 * Gauss-Jordan elimination in place. Without pivoting: the matrix of a passive network has a positive definite real part,
 * so no pivot is ever zero. Accuracy: reciprocity holds within 1e-9 in any changed ear
 * (tests/property/middle-ear-laws.test.ts).
 */
export function mobilityOf(impedance: Matrix): Matrix {
  const { size } = impedance
  const re = impedance.re.slice()
  const im = impedance.im.slice()
  for (let pivot = 0; pivot < size; pivot++) clearColumn(re, im, size, pivot)
  return { size, re, im }
}

function clearColumn(re: Float64Array, im: Float64Array, size: number, pivot: number): void {
  const at = pivot * size + pivot
  const square = (re[at] as number) ** 2 + (im[at] as number) ** 2
  const pr = (re[at] as number) / square
  const pi = -(im[at] as number) / square
  re[at] = 1
  im[at] = 0
  for (let k = pivot * size; k < (pivot + 1) * size; k++) {
    const r = re[k] as number
    const i = im[k] as number
    re[k] = r * pr - i * pi
    im[k] = r * pi + i * pr
  }
  for (let row = 0; row < size; row++) {
    if (row === pivot) continue
    const fr = re[row * size + pivot] as number
    const fi = im[row * size + pivot] as number
    re[row * size + pivot] = 0
    im[row * size + pivot] = 0
    if (fr === 0 && fi === 0) continue
    for (let k = 0; k < size; k++) {
      const r = re[pivot * size + k] as number
      const i = im[pivot * size + k] as number
      re[row * size + k] = (re[row * size + k] as number) - (fr * r - fi * i)
      im[row * size + k] = (im[row * size + k] as number) - (fr * i + fi * r)
    }
  }
}

/** The sum of left[i] * matrix[i][k] * right[k]: what is seen along `left` of a force along `right`. */
export function seenAlong({ size, re, im }: Matrix, left: readonly number[], right: readonly number[]): Complex {
  const rows = Math.min(size, left.length)
  const columns = Math.min(size, right.length)
  let sumRe = 0
  let sumIm = 0
  for (let row = 0; row < rows; row++) {
    const atRow = left[row] as number
    if (atRow === 0) continue
    for (let column = 0; column < columns; column++) {
      const weight = atRow * (right[column] as number)
      if (weight === 0) continue
      sumRe += weight * (re[row * size + column] as number)
      sumIm += weight * (im[row * size + column] as number)
    }
  }
  return { re: sumRe, im: sumIm }
}
