/** Whether a version of Node lies in a range as npm writes it in `engines`: `>=18`, `^20.9 || >=22`, `20.x`, `>=18 <23`. */
export function isInRange(version: string, range: string): boolean {
  const alternatives = range.split('||').map((part) => part.trim())
  return alternatives.some((alternative) => comparators(alternative).every((holds) => holds(numbersOf(version))))
}

type Numbers = readonly number[]
type Comparator = (version: Numbers) => boolean

const numbersOf = (version: string): Numbers => version.split('.').map(Number)

function comparators(alternative: string): Comparator[] {
  if (alternative === '' || alternative === '*') return []
  const span = /^(\S+) +- +(\S+)$/.exec(alternative)
  if (span !== null) return [comparator('>=', span[1] ?? ''), comparator('<=', span[2] ?? '')]
  const parts = [...alternative.matchAll(/(>=|<=|>|<|=|\^|~)?\s*v?([\dx*]+(?:\.[\dx*]+){0,2})(?:-[\w.]+)?/g)]
  if (
    parts
      .map(([text]) => text)
      .join('')
      .replaceAll(/\s/g, '') !== alternative.replaceAll(/\s/g, '')
  )
    throw new RangeError(`not a range of versions that this reads: ${alternative}`)
  return parts.map(([, sign = '=', text = '']) => comparator(sign, text))
}

function comparator(sign: string, text: string): Comparator {
  const given = text
    .split('.')
    .filter((part) => /^\d+$/.test(part))
    .map(Number)
  const bound = [...given, 0, 0, 0].slice(0, 3)
  /** The first version above all that begin with the same numbers, up to and with the one at `place`. */
  const above = (place: number) => bound.map((number, at) => (at < place ? number : at === place ? number + 1 : 0))
  const last = Math.max(0, given.length - 1)
  const from: Comparator = (version) => compare(version, bound) >= 0
  switch (sign) {
    case '>=':
      return from
    case '<':
      return (version) => compare(version, bound) < 0
    case '>':
      return (version) => compare(version, given.length < 3 ? above(last) : bound) > (given.length < 3 ? -1 : 0)
    case '<=':
      return (version) => compare(version, above(last)) < 0
    case '^': {
      const place = Math.max(
        0,
        bound.findIndex((number) => number > 0),
      )
      return (version) => from(version) && compare(version, above(place)) < 0
    }
    case '~':
      return (version) => from(version) && compare(version, above(Math.min(last, 1))) < 0
    default:
      return (version) => from(version) && (given.length === 0 || compare(version, above(last)) < 0)
  }
}

function compare(a: Numbers, b: Numbers): number {
  for (let at = 0; at < 3; at++) {
    const difference = (a[at] ?? 0) - (b[at] ?? 0)
    if (difference !== 0) return difference
  }
  return 0
}
