import type { ReactNode } from 'react'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-desk.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import { isIn, type View, views } from './floor-views.ts'
import styles from './floor-zone.module.css'
import { KeyHint } from './key-hint.tsx'

interface FloorFiltersProps {
  readonly threads: readonly Thread[]
  readonly view: View
  readonly setView: (view: View) => void
  readonly theme: string | undefined
  readonly setTheme: (theme: string | undefined) => void
  readonly themes: readonly string[]
  readonly suggested: number
  readonly find: ReactNode
}

/** State and theme of the questions that are shown, and how many seem to ask the same. */
export function FloorFilters({ threads, view, setView, theme, setTheme, themes, suggested, find }: FloorFiltersProps) {
  const { desk, words } = useMessages()
  return (
    <div className={styles.filters}>
      <fieldset className={styles.choices} aria-label={desk.floor.states}>
        {views.map((one, index) => (
          <button
            key={one}
            type="button"
            className={styles.choice}
            aria-pressed={view === one}
            onClick={() => setView(one)}
          >
            {one === 'open' ? desk.floor.open : words.questionState[one]}{' '}
            <span className={styles.count}>{threads.filter((thread) => isIn(thread, one)).length}</span>{' '}
            <KeyHint>{String(index)}</KeyHint>
          </button>
        ))}
      </fieldset>
      {themes.length > 0 && (
        <fieldset className={styles.choices} aria-label={desk.floor.themes}>
          <button
            type="button"
            className={styles.choice}
            aria-pressed={theme === undefined}
            onClick={() => setTheme(undefined)}
          >
            {desk.floor.allThemes} <KeyHint>v</KeyHint>
          </button>
          {themes.map((one) => (
            <button
              key={one}
              type="button"
              className={styles.choice}
              dir="auto"
              aria-pressed={theme === one}
              onClick={() => setTheme(theme === one ? undefined : one)}
            >
              {one}
            </button>
          ))}
        </fieldset>
      )}
      {suggested > 0 && (
        <p className={styles.suggested}>
          <StateSign tone="caution" sign="≈">
            {desk.floor.suggested(suggested)}
          </StateSign>
        </p>
      )}
      {find}
    </div>
  )
}
