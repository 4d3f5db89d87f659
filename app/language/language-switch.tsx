'use client'

import { useContext, useEffect, useState } from 'react'
import { Language, languageNames, languages } from '@/app/messages/language.ts'
import { LanguageContext } from '@/app/messages/together.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import { LanguageChoice } from './language-provider.tsx'
import styles from './language-switch.module.css'

/** Each language under its own name. */
export function LanguageSwitch() {
  const { shell } = useMessages()
  const language = useContext(LanguageContext)
  const { choose, isComing, hasFailed } = useContext(LanguageChoice)
  // What somebody chooses before the page is awake would be lost.
  const [isAwake, setAwake] = useState(false)
  useEffect(() => setAwake(true), [])
  return (
    <span className={styles.switch}>
      <select
        aria-label={shell.language}
        aria-busy={isComing}
        disabled={!isAwake}
        value={language}
        onChange={({ target }) => choose(Language.parse(target.value))}
      >
        {languages.map((each) => (
          <option key={each} value={each} lang={each}>
            {languageNames[each]}
          </option>
        ))}
      </select>
      {hasFailed && (
        <span className={styles.fault} role="alert">
          {shell.languageNotFetched}
        </span>
      )}
    </span>
  )
}
