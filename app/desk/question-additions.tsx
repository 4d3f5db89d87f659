import { Button } from '@/app/components/button.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-desk.ts'
import type { Alike } from '@/lib/board/alike-questions.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import styles from './floor-zone.module.css'
import { KeyHint } from './key-hint.tsx'

interface QuestionFactsProps {
  readonly claimed: readonly string[]
  readonly themes: readonly string[] | undefined
}

/** Who has the question in hand, and its themes. */
export function QuestionFacts({ claimed, themes = [] }: QuestionFactsProps) {
  const { desk } = useMessages()
  if (claimed.length === 0 && themes.length === 0) return null
  return (
    <p className={styles.facts}>
      {claimed.length > 0 && (
        <span role="status">
          <StateSign tone="caution">{desk.floor.claimed([...new Set(claimed)].join(', '))}</StateSign>
        </span>
      )}
      {themes.map((theme) => (
        <span key={theme} className={styles.theme} dir="auto">
          {theme}
        </span>
      ))}
    </p>
  )
}

interface SuggestionProps {
  readonly pair: Alike
  readonly of: Thread
  readonly onJoin: () => void
  readonly onApart: () => void
}

/** A question that seems to ask the same, and one press for each answer to that. */
export function Suggestion({ pair: { thread, into }, of, onJoin, onApart }: SuggestionProps) {
  const { desk } = useMessages()
  const other = of === thread ? into : thread
  return (
    <div className={styles.suggestion}>
      <span className={styles.alike} dir="auto">
        <span aria-hidden="true">≈</span> {desk.floor.alike(other.question.text)}
      </span>
      <Button tone="quiet" onClick={onJoin}>
        {desk.floor.join} <KeyHint>y</KeyHint>
      </Button>
      <Button tone="quiet" onClick={onApart}>
        {desk.floor.apart} <KeyHint>p</KeyHint>
      </Button>
    </div>
  )
}
