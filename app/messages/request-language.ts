import type { Metadata } from 'next'
import { cookies, headers } from 'next/headers'
import { type Language, languageCookie, languageFor } from './language.ts'
import type { Part } from './part.ts'

/** The language of the page that a request asks for: the reader's choice, else what the browser prefers. */
export async function requestLanguage(): Promise<Language> {
  const [chosen, asked] = await Promise.all([cookies(), headers()])
  return languageFor(chosen.get(languageCookie)?.value, asked.get('accept-language'))
}

/** The title of a page, in the language of each request. */
export const titleFrom =
  <T>(part: Part<T>, titleOf: (sentences: T) => string): (() => Promise<Metadata>) =>
  async () => ({ title: titleOf(await part.load(await requestLanguage())) })
