import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

/** WCAG 2.2: contrast ratio (relative luminance, section "relative luminance"), 4.5 for text (1.4.3), 3 for signs (1.4.11). */
const css = readFileSync(new URL('../../../app/tokens.css', import.meta.url), 'utf8')
const scale = Object.fromEntries(
  [...css.matchAll(/--([a-z0-9-]+):\s*(#[0-9a-f]{6});/g)].map(([, name, value]) => [name as string, value as string]),
)
/** Every purpose with its two values: light for the clinic, dark for the theatre. */
const purposes = new Map(
  [...css.matchAll(/--([a-z0-9-]+):\s*light-dark\(var\(--([a-z0-9-]+)\), var\(--([a-z0-9-]+)\)\);/g)].map(
    ([, name, clinic, theatre]) => [name as string, { clinic: clinic as string, theatre: theatre as string }],
  ),
)

function colour(theme: 'clinic' | 'theatre', name: string): [number, number, number] {
  const hex = scale[purposes.get(name)?.[theme] ?? ''] ?? ''
  const parts = /^#(..)(..)(..)$/.exec(hex)
  if (parts === null) throw new RangeError(`--${name} of ${theme} is no colour`)
  return [1, 2, 3].map((index) => Number.parseInt(parts[index] as string, 16) / 255) as [number, number, number]
}
const luminance = (rgb: [number, number, number]) => {
  const [r, g, b] = rgb.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)) as [
    number,
    number,
    number,
  ]
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
function contrast(theme: 'clinic' | 'theatre', front: string, back: string): number {
  const [light, dark] = [luminance(colour(theme, front)), luminance(colour(theme, back))].sort((a, b) => b - a) as [
    number,
    number,
  ]
  return (light + 0.05) / (dark + 0.05)
}

const grounds = ['ground', 'surface', 'sunken']
const texts = ['text', 'text-quiet', 'accent', 'accent-strong', 'caution', 'stop', 'good', 'ear-right', 'ear-left']
const pairs: [string, string][] = [
  ['on-accent', 'accent'],
  ['accent-strong', 'accent-ground'],
  ['caution', 'caution-ground'],
  ['stop', 'stop-ground'],
  ['good', 'good-ground'],
  ['state-current', 'state-current-ground'],
  ['state-superseded', 'state-superseded-ground'],
  ['state-error', 'state-error-ground'],
  ...texts.flatMap((text) => grounds.map((ground): [string, string] => [text, ground])),
]
const signs: [string, string][] = [
  ['rule-strong', 'ground'],
  ['focus', 'ground'],
  ['ear-right', 'chart-ground'],
  ['ear-left', 'chart-ground'],
]

describe.each(['clinic', 'theatre'] as const)('in the %s theme', (theme) => {
  it.each(pairs)('%s on %s can be read', (front, back) =>
    expect(contrast(theme, front, back)).toBeGreaterThanOrEqual(4.5),
  )
  it.each(signs)('%s on %s can be told apart', (front, back) =>
    expect(contrast(theme, front, back)).toBeGreaterThanOrEqual(3),
  )
})
