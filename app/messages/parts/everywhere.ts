import type { messages } from '../en.ts'
import type { Language } from '../language.ts'
import { pageLanguage } from '../page-language.ts'
import { part, type Shape } from '../part.ts'

export type Messages = Shape<Omit<typeof messages, 'language'>> & { readonly language: Language }

/** What every page needs. */
export const everywhere = part<Messages>({
  en: async () => (await import('../en.ts')).messages,
  fr: async () => (await import('../fr.ts')).messages,
})

/** The sentences of the page's language outside of React: no page stands before it has them. @throws Error before that */
export function messagesNow(): Messages {
  const messages = everywhere.in(pageLanguage())
  if (messages === undefined) throw new Error('the sentences of this page have not been loaded yet')
  return messages
}
