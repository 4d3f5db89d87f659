import { Language, languages, locales } from './language.ts'

let current: Language | undefined

/** The language that the page is in, outside of React; the server, which writes pages in several at once, never asks. */
export function pageLanguage(): Language {
  if (current !== undefined) return current
  const written = typeof document === 'undefined' ? undefined : Language.safeParse(document.documentElement.lang)
  return written?.success ? written.data : languages[0]
}

export function setPageLanguage(language: Language): void {
  current = language
  document.documentElement.lang = language
}

/** What `Intl` is told, for numbers and dates as the page's language writes them. */
export const pageLocale = (): string => locales[pageLanguage()]
