/** A complex number: impedance, velocity or force at one frequency, with the time factor exp(+j omega t). */
export interface Complex {
  readonly re: number
  readonly im: number
}

export const complex = (re: number, im: number): Complex => ({ re, im })
export const zero: Complex = { re: 0, im: 0 }
export const one: Complex = { re: 1, im: 0 }

export const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im })
export const subtract = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im })
export const scale = (a: Complex, by: number): Complex => ({ re: a.re * by, im: a.im * by })

export const multiply = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
})

export function reciprocal({ re, im }: Complex): Complex {
  const square = re * re + im * im
  return { re: re / square, im: -im / square }
}

export const divide = (a: Complex, b: Complex): Complex => multiply(a, reciprocal(b))
export const magnitude = ({ re, im }: Complex): number => Math.sqrt(re * re + im * im)
export const phaseDegrees = ({ re, im }: Complex): number => (Math.atan2(im, re) * 180) / Math.PI

/** Magnitude as given, phase in radians. */
export const polar = (length: number, angle: number): Complex => ({
  re: length * Math.cos(angle),
  im: length * Math.sin(angle),
})

/** Impedances side by side: the flow divides between them. */
export const parallel = (a: Complex, b: Complex): Complex => divide(multiply(a, b), add(a, b))

export const decibels = (ratio: number): number => 20 * Math.log10(ratio)
