import type * as English from '../en/places.ts'
import type { Shape } from '../part.ts'
import { decimals, hertz } from './numbers.ts'

export const frequency: Shape<typeof English.frequency> = hertz

export const band = (from: number, to: number): string =>
  from >= 1000
    ? `${decimals(from / 1000)} à ${hertz(to)}`
    : to < 1000
      ? `${from} à ${hertz(to)}`
      : `${hertz(from)} à ${hertz(to)}`
