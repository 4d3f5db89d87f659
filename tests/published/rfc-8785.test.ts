// RFC 8785, JSON Canonicalization Scheme (A. Rundgren, B. Jordan, S. Erdtman, June 2020): the samples it prints.
import { describe, expect, it } from 'vitest'
import { canonicalJson } from '../../lib/interchange/canonical-json.ts'
import { checkValue } from './record-check.ts'

const source = 'RFC 8785 (2020), sections 3.2.2 and 3.2.3'
const text = { source, tolerance: 0, why: 'a text' } as const

describe('RFC 8785', () => {
  it('writes the sample of section 3.2.2 as section 3.2.3 prints it', () => {
    const sample: unknown = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`)
    checkValue({
      ...text,
      what: 'canonical form of the sample object',
      expected: String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
      actual: canonicalJson(sample as Parameters<typeof canonicalJson>[0]),
    })
  })

  it('sorts keys by UTF-16 code units', () => {
    const sample = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    }
    checkValue({
      ...text,
      what: 'order of the keys of section 3.2.3',
      expected: [
        'Carriage Return',
        'One',
        'Control',
        'Latin Small Letter O With Diaeresis',
        'Euro Sign',
        'Emoji: Grinning Face',
        'Hebrew Letter Dalet With Dagesh',
      ],
      actual: [...canonicalJson(sample).matchAll(/:"([^"]+)"/g)].map(([, name]) => name ?? ''),
    })
  })

  it('refuses a number that JSON cannot hold', () => {
    expect(() => canonicalJson([Number.NaN])).toThrow(RangeError)
    expect(() => canonicalJson(Number.POSITIVE_INFINITY)).toThrow(RangeError)
  })
})
