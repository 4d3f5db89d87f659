'use client'

import Link from 'next/link'
import { LanguageSwitch } from '@/app/language/language-switch.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { ThemeSwitch } from '@/app/theme/theme-switch.tsx'
import type { Person } from '@/lib/interchange/api.ts'
import styles from './masthead.module.css'

/** The head of the pages outside a case: the product's name, who one is, the theme. */
export function Masthead({ person }: { person?: Person | undefined }) {
  const { shell } = useMessages()
  return (
    <header className={styles.masthead}>
      <Link className={styles.product} href="/">
        {shell.productName}
      </Link>
      <div className={styles.end}>
        {person !== undefined && (
          <>
            <span className={styles.person}>
              {person.name}, {person.affiliation}
            </span>
            <Link className={styles.leave} href="/leave" prefetch={false}>
              {shell.leave}
            </Link>
          </>
        )}
        <LanguageSwitch />
        <ThemeSwitch />
      </div>
    </header>
  )
}
