import { createContext, use } from 'react'
import { type Language, languages } from './language.ts'
import { pageLanguage } from './page-language.ts'
import type { Part } from './part.ts'

export const LanguageContext = createContext<Language>(languages[0])

interface Bundle {
  load(language: Language): Promise<unknown>
}
const bundles: Bundle[] = []

/**
 * Fetches the sentences of every part whose code the page has, so that none of them has to wait when it is shown.
 * @throws whatever kept one of them from loading
 */
export async function fetchSentences(language: Language = pageLanguage()): Promise<void> {
  await Promise.all(bundles.map((bundle) => bundle.load(language)))
}

type Said<P> = P extends Part<infer T> ? T : never
type All<P extends readonly unknown[]> = P extends readonly [infer First, ...infer Rest]
  ? Said<First> & All<Rest>
  : unknown

/**
 * Makes the hook that gives a component the sentences of its parts, in the language of the page. They are on their way as
 * soon as the component's code is there; until they have come, React waits (Suspense).
 */
export function together<const P extends readonly Part<object>[]>(...parts: P): () => All<P> {
  const loading = new Map<Language, Promise<All<P>>>()
  const load = async (language: Language): Promise<All<P>> => {
    try {
      return Object.assign({}, ...(await Promise.all(parts.map((one) => one.load(language)))))
    } catch (cause) {
      loading.delete(language)
      throw cause
    }
  }
  const begin = (language: Language): Promise<All<P>> => {
    const begun = loading.get(language)
    if (begun !== undefined) return begun
    const promise = load(language)
    loading.set(language, promise)
    // The mark by which React knows without waiting that a promise has its value.
    promise.then((value) => Object.assign(promise, { status: 'fulfilled', value })).catch(() => undefined)
    return promise
  }
  bundles.push({ load: begin })
  // Whoever shows the component hears of a failure, and asks again.
  if (typeof document !== 'undefined') begin(pageLanguage()).catch(() => undefined)
  return () => {
    const language = use(LanguageContext)
    // Always by `use`: React tells a component that waited once from one that is drawn anew by it.
    return use(begin(language))
  }
}
