/** What can be written canonically. A field that is undefined counts as absent. */
export type CanonicalValue =
  | string
  | number
  | boolean
  | null
  | readonly CanonicalValue[]
  | { readonly [key: string]: CanonicalValue | undefined }

/**
 * The one spelling of a value: keys in order of their UTF-16 code units, no white space, numbers and strings as
 * ECMAScript writes them, so that equal content gives equal bytes whatever order it was entered in.
 * @throws RangeError for a number that JSON cannot hold (NaN, infinity)
 * Source: RFC 8785, JSON Canonicalization Scheme, section 3.2 (June 2020).
 * Checked by: tests/published/rfc-8785.test.ts
 */
export function canonicalJson(value: CanonicalValue): string {
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new RangeError(`a canonical number is finite; got ${value}`)
  if (value === null || typeof value !== 'object') return JSON.stringify(value)
  if (isList(value)) return `[${value.map(canonicalJson).join(',')}]`
  return `{${membersOf(value).join(',')}}`
}

const isList = (value: object): value is readonly CanonicalValue[] => Array.isArray(value)

function membersOf(value: { readonly [key: string]: CanonicalValue | undefined }): string[] {
  const members: string[] = []
  // Without a comparison function, sort() compares UTF-16 code units, which is the order of RFC 8785.
  for (const key of Object.keys(value).sort()) {
    const member = value[key]
    if (member !== undefined) members.push(`${JSON.stringify(key)}:${canonicalJson(member)}`)
  }
  return members
}
