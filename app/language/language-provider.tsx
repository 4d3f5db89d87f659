'use client'

import { createContext, type ReactNode, useCallback, useState, useTransition } from 'react'
import { type Language, languageCookieText } from '@/app/messages/language.ts'
import { setPageLanguage } from '@/app/messages/page-language.ts'
import { fetchSentences, LanguageContext } from '@/app/messages/together.ts'

interface Choice {
  readonly choose: (language: Language) => void
  readonly isComing: boolean
  /** the chosen language could not be fetched; the page stays as it was */
  readonly hasFailed: boolean
}

export const LanguageChoice = createContext<Choice>({ choose: () => undefined, isComing: false, hasFailed: false })

interface LanguageProviderProps {
  /** the language that the server wrote the page in */
  readonly language: Language
  readonly children: ReactNode
}

/** Gives the page its language. Another one is fetched first and then put in its place: nothing that was typed is lost. */
export function LanguageProvider({ language: written, children }: LanguageProviderProps) {
  const [language, setLanguage] = useState(written)
  const [hasFailed, setFailed] = useState(false)
  const [isComing, startChange] = useTransition()
  const choose = useCallback((chosen: Language) => {
    setFailed(false)
    startChange(async () => {
      try {
        await fetchSentences(chosen)
      } catch {
        setFailed(true)
        return
      }
      // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store API is missing in two of the supported browsers
      document.cookie = languageCookieText(chosen)
      setPageLanguage(chosen)
      startChange(() => setLanguage(chosen))
    })
  }, [])
  return (
    <LanguageContext value={language}>
      <LanguageChoice value={{ choose, isComing, hasFailed }}>{children}</LanguageChoice>
    </LanguageContext>
  )
}
