import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { languageFor } from '../../../app/messages/language.ts'
import { deviceProfiles } from '../../../lib/forecast/profiles.ts'

const folder = new URL('../../../app/messages/', import.meta.url)
/** Those that carry sentences; how numbers are written is each language's own. */
const filesOf = (language: 'en' | 'fr') =>
  readdirSync(new URL(`${language}/`, folder)).filter((file) => file !== 'numbers.ts')
const files = filesOf('en')

/** What may read the same in both. */
const alike = [
  // words that French writes as English does
  /^(cause|complications|condition|date|extrusion|infection|notes?|options?|phase|plan|programme|questions?|votes?)$/i,
  // the product, a citation, an index known by its letters, and what is typed for "could not test"
  /^(Promontory|BIAP|Clark \/ ASHA|AAO-HNS 1995|NU-6, Bess et al\. 1979|SII|CNT)$/,
  // units, and keys of the keyboard
  /^(dB( HL| SPL)?|Hz|[nxbeI]|Alt\+↑ Alt\+↓)$/,
  /^[^\p{L}]*$/u,
]

const english = await everySentence('en')
const french = await everySentence('fr')

async function everySentence(language: 'en' | 'fr'): Promise<Map<string, unknown>> {
  const found = new Map<string, unknown>()
  for (const file of files) {
    const module: Record<string, unknown> = await import(`../../../app/messages/${language}/${file}`)
    const name = Object.keys(module)
      .sort()
      .find((key) => isPart(key, file))
    if (name !== undefined) collect(`${file}:${name}`, module[name], found)
  }
  return found
}

/** The export that carries the part: the file's name, in one word. */
function isPart(key: string, file: string): boolean {
  return [
    file.replace('.ts', '').replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase()),
    'wishWords',
    'findingSentences',
  ].includes(key)
}

function collect(path: string, value: unknown, found: Map<string, unknown>): void {
  if (typeof value === 'object' && value !== null)
    for (const [key, inner] of Object.entries(value)) collect(`${path}.${key}`, inner, found)
  else found.set(path, value)
}

/** What a function says when it is given plain facts; undefined where it needs facts of a certain form. */
function saidBy(said: unknown): string | undefined {
  if (typeof said === 'string') return said
  if (typeof said !== 'function') return undefined
  for (const facts of [
    [2, 2, 2, 2, 2, 2],
    ['right', 2, 2, 2, 2, 2],
    Array(6).fill('right'),
    Array(6).fill(['a', 'b']),
  ]) {
    try {
      const text: unknown = said(...facts)
      if (typeof text === 'string' && !/undefined|NaN|\[object/.test(text)) return text
    } catch {
      // It needs another kind of fact.
    }
  }
  return undefined
}

describe('both languages', () => {
  it('have the same files and the same keys', () => {
    expect(filesOf('fr')).toEqual(files)
    expect([...french.keys()].filter((path) => !path.startsWith('wish.ts')).sort()).toEqual(
      [...english.keys()].filter((path) => !path.startsWith('wish.ts')).sort(),
    )
    expect(english.size).toBeGreaterThan(1000)
  })

  it('give text for the same facts', () => {
    const silent = [...english].filter(
      ([path, said]) => saidBy(said) !== undefined && french.has(path) && saidBy(french.get(path)) === undefined,
    )
    // Its facts are codes, which its types hold complete.
    expect(silent.map(([path]) => path).filter((path) => !path.startsWith('refusals.ts'))).toEqual([])
  })

  it('no French sentence is an English one', () => {
    const same = [...french].filter(([path, said]) => {
      // Beginnings of words, which a wish is searched for.
      if (path.startsWith('wish.ts')) return false
      const text = typeof said === 'string' ? said : undefined
      return text !== undefined && text === english.get(path) && !alike.some((pattern) => pattern.test(text))
    })
    expect(same.map(([path, said]) => `${path}: ${said}`)).toEqual([])
  })

  it('French stops stand after a space that does not break', () => {
    const broken = [...french]
      .map(([path, said]) => [path, saidBy(said) ?? ''])
      .filter(([, text]) => / [:;?!%»]|« /.test(text ?? ''))
    expect(broken).toEqual([])
  })
})

describe('the language of a page', () => {
  it.each([
    ['fr', 'en-GB,en', 'fr'],
    ['en', 'fr', 'en'],
    [undefined, 'fr-CA,fr;q=0.9,en;q=0.5', 'fr'],
    [undefined, 'en;q=0.3, fr;q=0.8', 'fr'],
    [undefined, 'de, fr;q=0, *', 'en'],
    ['xx', null, 'en'],
  ] as const)('cookie %s and Accept-Language %s give %s', (cookie, accepted, language) => {
    expect(languageFor(cookie, accepted)).toBe(language)
  })
})

it('what the profiles of the board say of candidacy has its French', async () => {
  const { forecast } = await import('../../../app/messages/fr/forecast.ts')
  const remarks = [...new Set(deviceProfiles.map(({ candidacy }) => candidacy.remark))]
  expect(remarks.length).toBeGreaterThan(3)
  expect(remarks.filter((remark) => forecast.candidacyRemark(remark) === remark)).toEqual([])
})
