import * as z from 'zod/mini'

/** The languages of the interface; the first one serves whoever asks for none of them. */
export const languages = ['en', 'fr'] as const
export const Language = z.enum(languages)
export type Language = z.infer<typeof Language>

/** How each language calls itself. */
export const languageNames: Readonly<Record<Language, string>> = { en: 'English', fr: 'Français' }

/** Conventions for dates and numbers: days stand before months in both. */
export const locales: Readonly<Record<Language, string>> = { en: 'en-GB', fr: 'fr-FR' }

/** The choice is kept in a cookie, so that the server already writes the page in it. */
export const languageCookie = 'language'
const yearSeconds = 365 * 24 * 3600

export const languageCookieText = (language: Language): string =>
  `${languageCookie}=${language}; Path=/; Max-Age=${yearSeconds}; SameSite=Lax`

/**
 * The language to write a page in.
 * @param chosen value of the cookie
 * @param accepted the browser's Accept-Language (RFC 9110, section 12.5.4): ranges with weights, the heaviest known one wins
 */
export function languageFor(chosen: string | undefined, accepted: string | null): Language {
  const choice = Language.safeParse(chosen)
  return choice.success ? choice.data : (mostWanted(accepted ?? '') ?? languages[0])
}

function mostWanted(accepted: string): Language | undefined {
  const ranges = accepted.split(',').map((range) => {
    const [tag = '', ...parameters] = range.split(';').map((part) => part.trim().toLowerCase())
    const weight = parameters.find((parameter) => parameter.startsWith('q='))
    return { primary: tag.split('-')[0], weight: weight === undefined ? 1 : Number(weight.slice(2)) }
  })
  // Sorting keeps the order of equal weights: the browser names the preferred one first.
  const wanted = ranges.filter(({ weight }) => weight > 0).sort((a, b) => b.weight - a.weight)
  for (const { primary } of wanted) {
    const known = Language.safeParse(primary)
    if (known.success) return known.data
  }
  return undefined
}
