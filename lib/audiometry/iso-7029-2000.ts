import type { Iso7029FrequencyHz, Sex } from './iso-7029.ts'

/**
 * One row of ISO 7029:2000, Tables 1 and 2. Median deviation alpha (age - 18)^2 in dB; standard deviation of the
 * worse-hearing half `worse` + 0.445 x median, of the better-hearing half `better` + 0.356 x median, in dB.
 */
export interface Iso7029Row2000 {
  readonly alpha: number
  readonly worse: number
  readonly better: number
}

export const iso7029Slopes2000 = { worse: 0.445, better: 0.356 } as const

/** alpha except at 750 Hz was seen in a public table; the rest is from memory, unconfirmed. */
export const iso7029Table2000: Readonly<Record<Sex, Readonly<Record<Iso7029FrequencyHz, Iso7029Row2000>>>> = {
  male: {
    125: { alpha: 0.003, worse: 7.23, better: 5.78 },
    250: { alpha: 0.003, worse: 6.67, better: 5.34 },
    500: { alpha: 0.0035, worse: 6.12, better: 4.89 },
    750: { alpha: 0.0035, worse: 6.12, better: 4.89 },
    1000: { alpha: 0.004, worse: 6.12, better: 4.89 },
    1500: { alpha: 0.0055, worse: 6.67, better: 5.34 },
    2000: { alpha: 0.007, worse: 7.23, better: 5.78 },
    3000: { alpha: 0.0115, worse: 7.78, better: 6.23 },
    4000: { alpha: 0.016, worse: 8.34, better: 6.67 },
    6000: { alpha: 0.018, worse: 9.45, better: 7.56 },
    8000: { alpha: 0.022, worse: 10.56, better: 8.45 },
  },
  female: {
    125: { alpha: 0.003, worse: 6.67, better: 5.34 },
    250: { alpha: 0.003, worse: 6.12, better: 4.89 },
    500: { alpha: 0.0035, worse: 6.12, better: 4.89 },
    750: { alpha: 0.0035, worse: 6.12, better: 4.89 },
    1000: { alpha: 0.004, worse: 6.12, better: 4.89 },
    1500: { alpha: 0.005, worse: 6.67, better: 5.34 },
    2000: { alpha: 0.006, worse: 6.67, better: 5.34 },
    3000: { alpha: 0.0075, worse: 7.23, better: 5.78 },
    4000: { alpha: 0.009, worse: 7.78, better: 6.23 },
    6000: { alpha: 0.012, worse: 8.9, better: 7.12 },
    8000: { alpha: 0.015, worse: 10.56, better: 8.45 },
  },
}
